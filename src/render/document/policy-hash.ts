/** The hash by which a page's content security policy lets one style or script through, and no other. */
import { sha256 } from '@noble/hashes/sha2';

/**
 * @param text the whole text between the tags, to the letter
 * @example policyHash('') // 'sha256-47DEQpj8HBSa+/TImW+5JCeuQeRkm5NMpJWZG3hSuFU='
 */
export function policyHash(text: string): string {
  return `sha256-${btoa(String.fromCharCode(...sha256(text)))}`;
}

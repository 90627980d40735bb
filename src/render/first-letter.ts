/** The first letter of a text, large where it begins a sentence and small where it goes on in one. */

export function lowerFirst(text: string): string {
  return `${text.charAt(0).toLowerCase()}${text.slice(1)}`;
}

export function upperFirst(text: string): string {
  return `${text.charAt(0).toUpperCase()}${text.slice(1)}`;
}

/** @example sentence('no such file') // 'No such file.' */
export function sentence(text: string): string {
  return `${upperFirst(text)}.`;
}

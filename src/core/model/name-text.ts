/** Names of parts and stations in sentences: one that begins like a number is set apart from the figures around it. */

const LIKE_A_NUMBER = /^[.,+-]*\d/;

/** @example nameText('3') // '"3"' */
export function nameText(name: string): string {
  return LIKE_A_NUMBER.test(name) ? `"${name}"` : name;
}

/** @example amountOf(4, 'cap') // '4 cap'; amountOf(4, '3') // '4 × "3"' */
export function amountOf(amount: number | string, name: string): string {
  return LIKE_A_NUMBER.test(name) ? `${amount} × ${nameText(name)}` : `${amount} ${name}`;
}

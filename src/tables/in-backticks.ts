/** Sets a value of the user's apart from the sentence around it; a long one is cut. */
const LONGEST = 60;

export function inBackticks(value: string): string {
  const characters = [...value.slice(0, 4 * LONGEST)];
  const shown = characters.length > LONGEST ? `${characters.slice(0, LONGEST).join('')}…` : value;
  return `\`${shown}\``;
}

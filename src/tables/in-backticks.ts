/** Sets a value of the user's apart from the sentence around it; a long one is cut. */
const LONGEST = 60;

export function inBackticks(value: string): string {
  const characters = [...value];
  const shown = characters.length > LONGEST ? `${characters.slice(0, LONGEST).join('')}…` : value;
  return `\`${shown}\``;
}

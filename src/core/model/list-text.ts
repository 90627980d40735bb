/** A list as English writes it. @example listText(['a', 'b', 'c'], 'or') // 'a, b or c' */
export function listText(words: readonly string[], last: 'and' | 'or' = 'and'): string {
  if (words.length < 2) return words.join('');
  return `${words.slice(0, -1).join(', ')} ${last} ${words.at(-1)}`;
}

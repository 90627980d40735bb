/** A list as English writes it. @example listOfWords(['a', 'b', 'c'], 'or') // 'a, b or c' */
export function listOfWords(words: readonly string[], last: 'and' | 'or'): string {
  if (words.length < 2) return words.join('');
  return `${words.slice(0, -1).join(', ')} ${last} ${words.at(-1)}`;
}

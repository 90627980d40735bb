/** Names made to fit, cut in the middle: names often differ at their ends. */

/**
 * @param width characters that there is room for, 3 or more
 * @example shortened('turning_cell_north_2', 12) // 'turning…th_2'
 */
export function shortened(text: string, width: number, sign = '…'): string {
  const tail = Math.floor(width / 3);
  return text.length <= width ? text : `${text.slice(0, width - tail - 1)}${sign}${text.slice(-tail)}`;
}

/**
 * A chance as trials can tell it: beyond 99.9 and below 0.1 per cent they cannot say more than that, so never 100 or 0.
 *
 * @param share 0 to 1
 * @example chanceText(1) // '>99.9%'
 */
export function chanceText(share: number, percent = (pct: number) => `${pct.toFixed(1)}%`): string {
  const pct = 100 * share;
  if (pct > 99.9) return `>${percent(99.9)}`;
  if (pct < 0.1) return `<${percent(0.1)}`;
  return percent(pct);
}

/**
 * Which pick takes the part of which place, when parts of one kind leave a station first in, first out.
 *
 * A station is visited q times a period: places 0..q-1 and picks 0..q-1 in order of time. At the start of the period
 * `inside` parts are there already, and `loaded` of them belong to a batch that is still being loaded. Part i (placed by
 * place i) leaves by pick i + inside, counted on over the period ends. With a batch size above 1 the station starts
 * when the whole batch is in, so each pick waits for every place of its batch.
 *
 *      two visits, one part (x) inside at the start:        | end of the period
 *
 *      place       0       1       |   0       1            place 0 -> pick 1, lag 0
 *             x     \       \      |    \                   place 1 -> pick 0, lag 1
 *              \     \       `-----|--.  \
 *      pick     0     1            |   0   1
 */

/**
 * Tells each pick and a place that it waits for: every place of its batch, or the last one alone.
 *
 * @param visits places (= picks) in a period, 1 or more
 * @param inside parts there when the period starts, 0 or more
 * @param batch parts loaded before the station starts, 1 or more
 * @param loaded parts of an unfinished batch among those inside, 0..batch-1
 * @param tell with the period ends between place and pick, which may be negative where the asked state cannot be, and
 *   whether the process finishes after this place
 */
export function eachFifoLink(
  visits: number,
  inside: number,
  batch: number,
  loaded: number,
  of: 'all' | 'last',
  tell: (place: number, pick: number, lag: number, lastOfBatch: boolean) => void,
): void {
  for (let part = 0; part < visits; part++) {
    const pick = part + inside;
    const first = Math.floor((part + loaded) / batch) * batch - loaded;
    const last = first + batch - 1;
    for (let mate = of === 'all' ? first : last; mate <= last; mate++) {
      const lag = Math.floor(pick / visits) - Math.floor(mate / visits);
      tell(modulo(mate, visits), modulo(pick, visits), lag, mate === last);
    }
  }
}

function modulo(value: number, by: number): number {
  return ((value % by) + by) % by;
}

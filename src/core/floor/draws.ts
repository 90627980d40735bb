/** The random numbers of a run: each element of the cell draws from a stream of its own. */
import { log } from '../numbers/functions.js';
import { nextUniform, seedStream } from '../statistics/random-streams.js';
import type { CompiledCell } from './compiled-cell.js';

export class Draws {
  private readonly streams: Int32Array;
  /** Mean of exponential samplers, which need no call through their quantile; 0 for others. */
  private readonly exponentialMean: Float64Array;

  constructor(
    private readonly cell: CompiledCell,
    seed: number,
    replication: number,
  ) {
    this.streams = new Int32Array(cell.streamNames.length * 4);
    for (const [i, name] of cell.streamNames.entries()) seedStream(this.streams, i, seed, name, replication);
    this.exponentialMean = Float64Array.from(cell.samplers, ({ distribution: d }) =>
      d.name === 'exponential' ? d.mean : 0,
    );
  }

  /** A draw of sampler i. */
  draw(i: number): number {
    const mean = this.exponentialMean[i]!;
    if (mean > 0) return -mean * log(1 - nextUniform(this.streams, i));
    return this.cell.samplers[i]!.distribution.quantile(nextUniform(this.streams, i));
  }

  /** Time of an operation at a station where it varies. @param i sampler of the station */
  drawnS(i: number, scale: Float64Array, op: number, station: number): number {
    return this.draw(i) * scale[station * this.cell.opCount + op]!;
  }

  /** Time at work until a station's next random stop. */
  timeToStop(s: number): number {
    return -this.cell.mtbfS[s]! * log(nextUniform(this.streams, this.cell.samplers.length + s));
  }

  isGood(route: number, share: number): boolean {
    return nextUniform(this.streams, this.cell.samplers.length + this.cell.stationCount + route) < share;
  }
}

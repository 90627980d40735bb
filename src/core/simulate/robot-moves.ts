/** How long robot moves and actions take at the present moment, with their scatter. */
import type { CompiledCell } from './compiled-cell.js';
import type { ShopFloor } from './shop-floor.js';

export class RobotMoves {
  private readonly cell: CompiledCell;

  /** @param slowAttended travel at the attended speed while an operator is there */
  constructor(
    private readonly floor: ShopFloor,
    private readonly slowAttended: boolean,
  ) {
    this.cell = floor.cell;
  }

  travelS(from: number, to: number, loaded: boolean): number {
    const { cell } = this;
    const slow = this.slowAttended && this.floor.attended;
    const table = loaded
      ? slow
        ? cell.attendedLoadedS
        : cell.travelLoadedS
      : slow
        ? cell.attendedEmptyS
        : cell.travelEmptyS;
    const time = table[from * cell.stationCount + to]!;
    const sampler = cell.travelSampler[to]!;
    return sampler < 0 || from === to ? time : time * this.scatter(sampler);
  }

  placeS(op: number, station: number): number {
    const { cell } = this;
    const sampler = cell.loadSampler[station]!;
    if (sampler < 0) return cell.opLoadS[op]!;
    return this.floor.draw(sampler) * cell.loadScale[station * cell.opCount + op]!;
  }

  pickS(op: number, station: number): number {
    const { cell } = this;
    const sampler = cell.unloadSampler[station]!;
    if (sampler < 0) return cell.opUnloadS[op]!;
    return this.floor.draw(sampler) * cell.unloadScale[station * cell.opCount + op]!;
  }

  holdS(op: number, station: number): number {
    const { cell } = this;
    const sampler = cell.cycleSampler[station]!;
    if (sampler < 0) return cell.opCycleS[op]!;
    return this.floor.draw(sampler) * cell.cycleScale[station * cell.opCount + op]!;
  }

  /** A draw over its own mean. */
  scatter(sampler: number): number {
    const mean = this.cell.samplers[sampler]!.distribution.mean;
    return mean > 0 ? this.floor.draw(sampler) / mean : 1;
  }

  /** Of the stations of an operation, the nearest one. */
  nearest(from: number, op: number): number {
    const { firstChoice, opStations, travelLoadedS, stationCount } = this.cell;
    let best = opStations[firstChoice[op]!]!;
    for (let c = firstChoice[op]! + 1; c < firstChoice[op + 1]!; c++) {
      const s = opStations[c]!;
      if (travelLoadedS[from * stationCount + s]! < travelLoadedS[from * stationCount + best]!) best = s;
    }
    return best;
  }
}

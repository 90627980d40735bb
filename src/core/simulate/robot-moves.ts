/** How long robot moves and actions take at the present moment, with their scatter. */
import type { CompiledCell } from './compiled-cell.js';
import type { ShopFloor } from './shop-floor.js';

export class RobotMoves {
  private readonly cell: CompiledCell;
  private readonly stations: number;
  private readonly travelVaries: boolean;
  private readonly loadVaries: boolean;
  private readonly unloadVaries: boolean;
  private emptyS: Float64Array;
  private loadedS: Float64Array;

  /** @param slowAttended travel at the attended speed while an operator is there */
  constructor(
    private readonly floor: ShopFloor,
    private readonly slowAttended: boolean,
  ) {
    const { cell } = floor;
    this.cell = cell;
    this.stations = cell.stationCount;
    this.travelVaries = cell.travelSampler.some((v) => v >= 0);
    this.loadVaries = cell.loadSampler.some((v) => v >= 0);
    this.unloadVaries = cell.unloadSampler.some((v) => v >= 0);
    this.emptyS = cell.travelEmptyS;
    this.loadedS = cell.travelLoadedS;
  }

  /** Takes the speed that holds now; called before each round. */
  setSpeed(): void {
    if (!this.slowAttended) return;
    const slow = this.floor.attended;
    this.emptyS = slow ? this.cell.attendedEmptyS : this.cell.travelEmptyS;
    this.loadedS = slow ? this.cell.attendedLoadedS : this.cell.travelLoadedS;
  }

  travelEmptyS(from: number, to: number): number {
    const time = this.emptyS[from * this.stations + to]!;
    return this.travelVaries ? time * this.travelScatter(from, to) : time;
  }

  travelLoadedS(from: number, to: number): number {
    const time = this.loadedS[from * this.stations + to]!;
    return this.travelVaries ? time * this.travelScatter(from, to) : time;
  }

  private travelScatter(from: number, to: number): number {
    const sampler = this.cell.travelSampler[to]!;
    return sampler < 0 || from === to ? 1 : this.scatter(sampler);
  }

  placeS(op: number, station: number): number {
    return this.loadVaries ? this.drawnPlaceS(op, station) : this.cell.opLoadS[op]!;
  }

  private drawnPlaceS(op: number, station: number): number {
    const { cell } = this;
    const sampler = cell.loadSampler[station]!;
    if (sampler < 0) return cell.opLoadS[op]!;
    return this.floor.draw(sampler) * cell.loadScale[station * cell.opCount + op]!;
  }

  pickS(op: number, station: number): number {
    return this.unloadVaries ? this.drawnPickS(op, station) : this.cell.opUnloadS[op]!;
  }

  private drawnPickS(op: number, station: number): number {
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

/** When robot moves are over and how long its actions take, with their variation. */
import type { CompiledCell } from './compiled-cell.js';
import type { Draws } from './draws.js';
import type { OpenTime } from './open-time.js';
import type { ShopFloor } from './shop-floor.js';

export class RobotMoves {
  private readonly cell: CompiledCell;
  private readonly hours: OpenTime;
  private readonly draws: Draws;
  private readonly stations: number;
  private readonly travelVaries: boolean;

  constructor({ cell, hours, draws }: Pick<ShopFloor, 'cell' | 'hours' | 'draws'>) {
    this.cell = cell;
    this.hours = hours;
    this.draws = draws;
    this.stations = cell.stationCount;
    this.travelVaries = cell.travelSampler.some((v) => v >= 0);
  }

  /** When the robot that sets off with empty hands has come. */
  comesEmptyS(fromS: number, from: number, to: number): number {
    return this.comesS(fromS, this.cell.travelEmptyS[from * this.stations + to]!, from, to);
  }

  /** When the robot that sets off with a part has come. */
  comesLoadedS(fromS: number, from: number, to: number): number {
    return this.comesS(fromS, this.cell.travelLoadedS[from * this.stations + to]!, from, to);
  }

  private comesS(fromS: number, time: number, from: number, to: number): number {
    const sampler = this.travelVaries && from !== to ? this.cell.travelSampler[to]! : -1;
    const workS = sampler < 0 ? time : time * this.scatter(sampler);
    return this.hours.arrival(fromS, workS, from === to);
  }

  placeS(op: number, station: number): number {
    const { opLoadS, loadSampler, loadScale } = this.cell;
    const i = loadSampler[station]!;
    return i < 0 ? opLoadS[op]! : this.draws.drawnS(i, loadScale, op, station);
  }

  pickS(op: number, station: number): number {
    const { opUnloadS, unloadSampler, unloadScale } = this.cell;
    const i = unloadSampler[station]!;
    return i < 0 ? opUnloadS[op]! : this.draws.drawnS(i, unloadScale, op, station);
  }

  holdS(op: number, station: number): number {
    const { opCycleS, cycleSampler, cycleScale } = this.cell;
    const i = cycleSampler[station]!;
    return i < 0 ? opCycleS[op]! : this.draws.drawnS(i, cycleScale, op, station);
  }

  /** A hold without its variation. */
  meanHoldS(op: number, station: number): number {
    return this.cell.cycleSampler[station]! < 0 ? this.cell.opCycleS[op]! : 0;
  }

  /** A draw over its own mean. */
  scatter(sampler: number): number {
    const mean = this.cell.samplers[sampler]!.distribution.mean;
    return mean > 0 ? this.draws.draw(sampler) / mean : 1;
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

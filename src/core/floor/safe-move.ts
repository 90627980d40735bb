/**
 * Keeps a one-handed robot out of deadlock among stations that can block each other in a ring: a move is allowed only
 * if afterwards the parts inside could leave one after another, each walking its whole remaining route over free
 * places while the others stand still (Dijkstra's banker's rule, 1965, with places as money). The rule never locks up;
 * it may refuse a move that a cleverer look ahead would allow.
 */
import { type CompiledCell, WORK } from './compiled-cell.js';
import type { ShopFloor } from './shop-floor.js';

/** Where it is needed: a robot with one hand among stations that can block each other. With two hands a part can be exchanged. */
export function safeMoveOf(floor: ShopFloor): SafeMove | null {
  const { hasRing, hands } = floor.cell;
  return hasRing && hands === 1 ? new SafeMove(floor) : null;
}

export class SafeMove {
  private readonly cell: CompiledCell;
  private readonly used: Int32Array;
  private readonly partOp: Int32Array;
  private readonly partStation: Int32Array;

  constructor(private readonly floor: ShopFloor) {
    this.cell = floor.cell;
    this.used = new Int32Array(floor.cell.stationCount);
    this.partOp = new Int32Array(floor.cell.slotCount + 1);
    this.partStation = new Int32Array(floor.cell.slotCount + 1);
  }

  /** @param fromSlot slot that the part leaves; -1 = an infeed */
  allows(fromSlot: number, destOp: number, destStation: number): boolean {
    const { cell, floor } = this;
    this.used.fill(0);
    let parts = 0;
    for (let slot = 0; slot < cell.slotCount; slot++) {
      const op = floor.slotOp[slot]!;
      if (op >= 0 && slot !== fromSlot) parts = this.put(parts, op, cell.slotStation[slot]!);
    }
    if (cell.opKind[destOp] === WORK) parts = this.put(parts, destOp, destStation);
    return this.canAllLeave(parts);
  }

  private put(parts: number, op: number, station: number): number {
    this.used[station]!++;
    this.partOp[parts] = op;
    this.partStation[parts] = station;
    return parts + 1;
  }

  private canAllLeave(parts: number): boolean {
    let left = parts;
    for (let i = 0; i < left; ) {
      if (!this.canLeave(this.partOp[i]!, this.partStation[i]!)) {
        i++;
        continue;
      }
      this.used[this.partStation[i]!]!--;
      left--;
      this.partOp[i] = this.partOp[left]!;
      this.partStation[i] = this.partStation[left]!;
      i = 0;
    }
    return left === 0;
  }

  /** Every step left, those that not every part makes included, has a free place or the part's own. */
  private canLeave(op: number, own: number): boolean {
    const { cell } = this;
    for (let n = op + 1; n < cell.opCount && cell.opRoute[n] === cell.opRoute[op]; n++) {
      if (cell.opKind[n] !== WORK) continue;
      if (!this.hasPlace(n, own)) return false;
    }
    return true;
  }

  private hasPlace(op: number, own: number): boolean {
    const { firstChoice, opStations, firstSlot } = this.cell;
    for (let c = firstChoice[op]!; c < firstChoice[op + 1]!; c++) {
      const s = opStations[c]!;
      if (s === own || this.used[s]! < firstSlot[s + 1]! - firstSlot[s]!) return true;
    }
    return false;
  }
}

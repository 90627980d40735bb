/** The units that may come next at each depth of a search, those of the least bound first; laid out once. */
export class ChildList {
  private readonly boundS: Float64Array;
  private readonly endS: Float64Array;
  private readonly unit: Int32Array;

  constructor(
    depths: number,
    private readonly most: number,
  ) {
    this.boundS = new Float64Array(depths * most);
    this.endS = new Float64Array(depths * most);
    this.unit = new Int32Array(depths * most);
  }

  boundAt(depth: number, place: number): number {
    return this.boundS[depth * this.most + place]!;
  }

  unitAt(depth: number, place: number): number {
    return this.unit[depth * this.most + place]!;
  }

  /**
   * @param count how many are there
   * @param endS tells those of one bound apart: the sooner the better
   */
  insert(depth: number, count: number, unit: number, boundS: number, endS: number): void {
    const base = depth * this.most;
    let slot = base + count;
    while (slot > base && this.isWorse(slot - 1, boundS, endS)) {
      this.boundS[slot] = this.boundS[slot - 1]!;
      this.endS[slot] = this.endS[slot - 1]!;
      this.unit[slot] = this.unit[slot - 1]!;
      slot--;
    }
    this.boundS[slot] = boundS;
    this.endS[slot] = endS;
    this.unit[slot] = unit;
  }

  private isWorse(slot: number, boundS: number, endS: number): boolean {
    return this.boundS[slot]! > boundS || (this.boundS[slot]! === boundS && this.endS[slot]! > endS);
  }
}

/** Names by number, in the order in which they came. */
export class Names {
  readonly list: string[] = [];
  private readonly numbers = new Map<string, number>();

  /** Number of a name; a new one gets the next. */
  numberOf(name: string): number {
    let number = this.numbers.get(name);
    if (number === undefined) {
      number = this.list.length;
      this.list.push(name);
      this.numbers.set(name, number);
    }
    return number;
  }

  /** -1 where the name has not come. */
  find(name: string): number {
    return this.numbers.get(name) ?? -1;
  }
}

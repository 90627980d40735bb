/**
 * A formula of the audit as a spreadsheet takes it: names become cells, `sum(… of year y …)` one term a year, and what
 * spreadsheets lack (rounding up with a hair of room) is spelled out.
 */

export interface SheetNames {
  /** Cell of a named figure or input, such as `inputs!$B$7`; null where there is none. */
  readonly cellOf: (name: string) => string | null;
  /** Value of an input that says how many years there are. */
  readonly years: (name: string) => number;
}

const SIGNS = ['sum(', 'min(', 'max(', 'log2(', 'roundup(', '(', ')', ',', '+', '-', '/', '^', '='] as const;

interface Token {
  readonly kind: 'number' | 'name' | 'sign' | 'year';
  readonly text: string;
}

/**
 * @param text as the audit writes it
 * @param names of the inputs that stand beside it
 * @throws RangeError where something in it is not known
 * @example sheetFormula('box_price x 2 ^ 3', ['box_price'], { cellOf: () => 'B2', years: () => 5 }) // 'B2*(2)^(3)'
 */
export function sheetFormula(text: string, names: readonly string[], sheet: SheetNames): string {
  return new Writer(tokensOf(text, names), sheet).whole();
}

/** At each place the longest known name wins; a name with a year in it may stand as `… of year y`. */
function tokensOf(text: string, names: readonly string[]): Token[] {
  const known = [...new Set(names.flatMap((name) => [name, name.replace(/ of year \d+$/, ' of year y')]))];
  known.sort((a, b) => b.length - a.length);
  const found: Token[] = [];
  let at = 0;
  while (at < text.length) {
    const rest = text.slice(at);
    const token = tokenAt(rest, known);
    if (token === null && !/^\s/.test(rest)) throw new RangeError(`nothing known begins at ${rest}`);
    if (token !== null) found.push(token);
    at += token?.text.length ?? 1;
  }
  return found;
}

function tokenAt(rest: string, names: readonly string[]): Token | null {
  const name = names.find((each) => rest.startsWith(each));
  if (name !== undefined) return { kind: 'name', text: name };
  const digits = /^\d+(\.\d+)?(e[+-]?\d+)?/.exec(rest)?.[0];
  if (digits !== undefined) return { kind: 'number', text: digits };
  const sign = SIGNS.find((each) => rest.startsWith(each)) ?? /^(x|to)(?= )/.exec(rest)?.[0];
  if (sign !== undefined) return { kind: 'sign', text: sign };
  return /^y\b/.test(rest) ? { kind: 'year', text: 'y' } : null;
}

class Writer {
  private at = 0;
  private year: number | null = null;

  constructor(
    private readonly tokens: readonly Token[],
    private readonly sheet: SheetNames,
  ) {}

  whole(): string {
    const text = this.sum();
    if (this.at < this.tokens.length) throw new RangeError(`left over: ${this.tokens[this.at]!.text}`);
    return text;
  }

  private takes(sign: string): boolean {
    const token = this.tokens[this.at];
    if (token?.kind !== 'sign' || token.text !== sign) return false;
    this.at++;
    return true;
  }

  private sum(): string {
    let text = this.product();
    for (;;) {
      if (this.takes('+')) text += `+${this.product()}`;
      else if (this.takes('-')) text += `-${this.product()}`;
      else return text;
    }
  }

  private product(): string {
    let text = this.power();
    for (;;) {
      if (this.takes('x')) text += `*${this.power()}`;
      else if (this.takes('/')) text += `/${this.power()}`;
      else return text;
    }
  }

  private power(): string {
    const base = this.atom();
    return this.takes('^') ? `(${base})^(${this.power()})` : base;
  }

  private atom(): string {
    if (this.takes('(')) return `(${this.list().join(',')})`;
    if (this.takes('min(')) return `MIN(${this.list().join(',')})`;
    if (this.takes('max(')) return `MAX(${this.list().join(',')})`;
    if (this.takes('log2(')) return `LOG(${this.list()[0]},2)`;
    if (this.takes('roundup(')) return roundedUp(this.list()[0]!);
    if (this.takes('sum(')) return this.everyYear();
    const token = this.tokens[this.at++];
    if (token?.kind === 'number') return token.text;
    if (token?.kind === 'year' && this.year !== null) return String(this.year);
    if (token?.kind === 'name') return this.cell(token.text);
    throw new RangeError(`found ${token?.text} where a value is expected`);
  }

  /** Arguments up to the closing bracket. */
  private list(): string[] {
    const texts = [this.sum()];
    while (this.takes(',')) texts.push(this.sum());
    this.takes(')');
    return texts;
  }

  /** `sum(body, y = from to until)`: the body is written once for each year. */
  private everyYear(): string {
    const start = this.at;
    this.year = 0;
    this.sum();
    this.at += 3; // , y =
    const from = Number(this.tokens[this.at++]!.text);
    this.at++; // to
    const until = this.sheet.years(this.tokens[this.at++]!.text);
    this.takes(')');
    const end = this.at;
    const terms: string[] = [];
    for (let year = from; year <= until; year++) {
      this.year = year;
      this.at = start;
      terms.push(this.sum());
    }
    this.at = end;
    this.year = null;
    return `(${terms.join('+')})`;
  }

  private cell(name: string): string {
    const own = name.replace(/ of year y$/, ` of year ${this.year}`);
    // While the body of a sum is only passed over, its year may be one that does not exist.
    const cell = this.sheet.cellOf(own) ?? (own === name ? null : '0');
    if (cell === null) throw new RangeError(`there is no cell for ${own}`);
    return cell;
  }
}

/** Up to the next whole number, where a hair above one does not count. */
export function roundedUp(text: string): string {
  return `-INT(0.000000001*MAX(1,ABS(${text}))-(${text}))`;
}

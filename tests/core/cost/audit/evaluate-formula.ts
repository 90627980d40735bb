/**
 * A small evaluator of the audit's formulas, written without any of the program's own code: it knows nothing but the text
 * of the formula and the values of the inputs that stand beside it.
 */

export interface NamedValue {
  readonly item: string;
  readonly value: number | string;
}

/** @throws Error where the text names something that is not among the inputs, or is no formula */
export function evaluateFormula(text: string, inputs: readonly NamedValue[]): number {
  const values = new Map(
    inputs.map(
      ({ item, value }) => [item.replace(/ \((default|signals_per_machine)\)$/, ''), value] as const,
    ),
  );
  return new Parser(tokens(text, values), values).whole();
}

type Token = { readonly kind: 'number' | 'name' | 'sign' | 'year'; readonly text: string };

const SIGNS = ['sum(', 'min(', 'max(', 'log2(', 'roundup(', '(', ')', ',', '+', '-', '/', '^', '='];

/** At each place the longest known name wins; a name with a year in it may stand as `… of year y`. */
function tokens(text: string, values: ReadonlyMap<string, unknown>): Token[] {
  const names = [
    ...new Set([...values.keys()].flatMap((n) => [n, n.replace(/ of year \d+$/, ' of year y')])),
  ].sort((a, b) => b.length - a.length);
  const found: Token[] = [];
  let at = 0;
  while (at < text.length) {
    const rest = text.slice(at);
    const blank = /^\s+/.exec(rest);
    if (blank) {
      at += blank[0].length;
      continue;
    }
    const name = names.find((n) => rest.startsWith(n));
    const digits = /^\d+(\.\d+)?(e[+-]?\d+)?/.exec(rest)?.[0];
    const sign = SIGNS.find((s) => rest.startsWith(s)) ?? /^(x|to)(?= )/.exec(rest)?.[0];
    if (name !== undefined) found.push({ kind: 'name', text: name });
    else if (digits !== undefined) found.push({ kind: 'number', text: digits });
    else if (sign !== undefined) found.push({ kind: 'sign', text: sign });
    else if (/^y\b/.test(rest)) found.push({ kind: 'year', text: 'y' });
    else throw new Error(`nothing known begins at \`${rest.slice(0, 40)}\` of \`${text}\``);
    at += found.at(-1)!.text.length;
  }
  return found;
}

class Parser {
  private at = 0;
  private year: number | null = null;

  constructor(
    private readonly list: readonly Token[],
    private readonly values: ReadonlyMap<string, number | string>,
  ) {}

  whole(): number {
    const value = this.sum();
    if (this.at < this.list.length) throw new Error(`left over: ${this.list[this.at]!.text}`);
    return value;
  }

  private takes(text: string): boolean {
    const token = this.list[this.at];
    if (token?.kind !== 'sign' || token.text !== text) return false;
    this.at++;
    return true;
  }

  private must(text: string): void {
    if (!this.takes(text)) throw new Error(`expected \`${text}\`, found \`${this.list[this.at]?.text}\``);
  }

  private sum(): number {
    let value = this.product();
    for (;;) {
      if (this.takes('+')) value += this.product();
      else if (this.takes('-')) value -= this.product();
      else return value;
    }
  }

  private product(): number {
    let value = this.power();
    for (;;) {
      if (this.takes('x')) value *= this.power();
      else if (this.takes('/')) value /= this.power();
      else return value;
    }
  }

  private power(): number {
    const base = this.atom();
    return this.takes('^') ? base ** this.power() : base;
  }

  private atom(): number {
    if (this.takes('(')) {
      const value = this.sum();
      this.must(')');
      return value;
    }
    if (this.takes('min(')) return Math.min(...this.list_());
    if (this.takes('max(')) return Math.max(...this.list_());
    if (this.takes('log2(')) return Math.log2(this.list_()[0]!);
    if (this.takes('roundup(')) {
      const [value] = this.list_();
      return Math.ceil(value! - 1e-9 * Math.max(1, Math.abs(value!)));
    }
    if (this.takes('sum(')) return this.years();
    const token = this.list[this.at++];
    if (token?.kind === 'number') return Number(token.text);
    if (token?.kind === 'year' && this.year !== null) return this.year;
    if (token?.kind === 'name') return this.valueOf(token.text);
    throw new Error(`found \`${token?.text}\` where a value is expected`);
  }

  private list_(): number[] {
    const values = [this.sum()];
    while (this.takes(',')) values.push(this.sum());
    this.must(')');
    return values;
  }

  /** sum(body, y = from to until): the body is read once for each year. */
  private years(): number {
    const start = this.at;
    this.year = Number.NaN;
    this.sum();
    this.must(',');
    this.at++;
    this.must('=');
    const from = this.sum();
    this.must('to');
    const until = this.sum();
    this.must(')');
    const end = this.at;
    let total = 0;
    for (let year = from; year <= until; year++) {
      this.year = year;
      this.at = start;
      total += this.sum();
    }
    this.at = end;
    this.year = null;
    return total;
  }

  private valueOf(name: string): number {
    if (/ of year y$/.test(name) && Number.isNaN(this.year ?? 0)) return Number.NaN;
    const value = this.values.get(name.replace(/ of year y$/, ` of year ${this.year}`));
    if (typeof value !== 'number') throw new Error(`\`${name}\` of year ${this.year} is ${value}, no number`);
    return value;
  }
}

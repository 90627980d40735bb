/** Names on a plan: each beside its station where it covers nothing; where they do not all fit, numbers and a list. */
import { nameLabel } from './name-label.js';
import { label } from './svg.js';
import { textWidth } from './text-width.js';

const [MARK, LINE] = [13, 14];
const LIST_LINE = 18;
const MOST_NAME = 180;
/** Between two names in a line. */
const APART = 6;

export interface Point {
  readonly x: number;
  readonly y: number;
}

/** A station's place on the page. */
export interface NameSpot extends Point {
  readonly name: string;
}

interface Box {
  readonly x0: number;
  readonly x1: number;
  readonly y0: number;
  readonly y1: number;
}

export interface PlanPage {
  readonly width: number;
  /** Of the plan itself. */
  readonly height: number;
  /** Where a list of names would begin. */
  readonly listTop: number;
  readonly columns: number;
}

export function planNames(
  spots: readonly NameSpot[],
  page: PlanPage,
): { readonly labels: string[]; readonly listHeight: number } {
  const names = spots.map(({ name }) => name);
  const boxes = names.every((name) => textWidth(name) <= MOST_NAME) ? placed(spots, names, page) : null;
  if (boxes !== null) return { labels: labelsIn(boxes, names), listHeight: 0 };
  const numbers = spots.map((_, k) => `${k + 1}`);
  const numberBoxes =
    placed(spots, numbers, page) ?? spots.map((spot, k) => around(spot, textWidth(numbers[k]!))[0]!);
  const rows = Math.ceil(spots.length / page.columns);
  const columnWidth = page.width / page.columns;
  const list = names.flatMap((name, k) => {
    const [x, y] = [Math.floor(k / rows) * columnWidth, page.listTop + (k % rows) * LIST_LINE];
    return [label(numbers[k]!, x + 16, y, 'strong', 'end'), nameLabel(name, x + 23, y, columnWidth - 30)];
  });
  return { labels: [...labelsIn(numberBoxes, numbers), ...list], listHeight: rows * LIST_LINE + 8 };
}

function labelsIn(boxes: readonly Box[], texts: readonly string[]): string[] {
  return boxes.map((box, k) => label(texts[k]!, box.x0, box.y1 - 3, 'over'));
}

/** @returns a place for each text that covers no station and no other text; null where one has none */
function placed(
  spots: readonly NameSpot[],
  texts: readonly string[],
  { width, height }: PlanPage,
): Box[] | null {
  const taken = spots.map(({ x, y }): Box => {
    return { x0: x - MARK + APART, x1: x + MARK - APART, y0: y - MARK, y1: y + MARK };
  });
  const boxes: Box[] = [];
  for (const [k, spot] of spots.entries()) {
    const box = around(spot, textWidth(texts[k]!), spots).find(
      (b) => isInside(b, width, height) && !taken.some((other) => overlap(b, other)),
    );
    if (box === undefined) return null;
    taken.push(box);
    boxes.push(box);
  }
  return boxes;
}

/** Outward first, where fewest ways run. */
function around({ x, y }: NameSpot, width: number, spots: readonly NameSpot[] = []): Box[] {
  const box = (x0: number, y0: number): Box => ({ x0, x1: x0 + width, y0, y1: y0 + LINE });
  const above = box(x - width / 2, y - MARK - LINE - 4);
  const below = box(x - width / 2, y + MARK + 4);
  const [rightwards, leftwards] = [box(x + MARK + 5, y - LINE / 2), box(x - MARK - 5 - width, y - LINE / 2)];
  const across = middleOf(spots.map((spot) => spot.y));
  const upright = y <= across ? [above, below] : [below, above];
  const xs = spots.map((spot) => spot.x);
  const isOuter = spots.some((spot) => Math.abs(spot.y - across) > Math.abs(y - across) + LINE);
  const sideways = x <= middleOf(xs) ? [leftwards, rightwards] : [rightwards, leftwards];
  // A station between the rows has its free side to the left or right.
  return isOuter ? [sideways[0]!, ...upright, sideways[1]!] : [...upright, ...sideways];
}

export function middleOf(values: readonly number[]): number {
  return values.length === 0 ? 0 : (Math.min(...values) + Math.max(...values)) / 2;
}

function isInside({ x0, x1, y0, y1 }: Box, width: number, height: number): boolean {
  return x0 >= 0 && x1 <= width && y0 >= 0 && y1 <= height;
}

function overlap(a: Box, b: Box): boolean {
  return a.x0 < b.x1 + APART && b.x0 < a.x1 + APART && a.y0 < b.y1 && b.y0 < a.y1;
}

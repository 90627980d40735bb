// The line of the headers, below titles or not, by lines written by hand.
import { expect, test } from 'vitest';
import { headerLine } from '../../src/tables/header-line.js';
import { routeColumns } from '../../src/tables/route-columns.js';

const found = (...lines: readonly string[]) => headerLine(lines, [...lines.keys()], routeColumns);
const TITLE = 'Cell 4';

test('the first line is it where one of its cells names a column, and where no line does', () => {
  expect(found('part,x', 'part,step')).toEqual({ at: 0, above: 0 });
  expect(found(TITLE, 'x', 'a,b')).toEqual({ at: 0, above: 0 });
  expect(headerLine(['', '# part', 'x'], [2], routeColumns)).toEqual({ at: 2, above: 0 });
  expect(headerLine(['', '# part'], [], routeColumns)).toBeNull();
});

test.each([
  'part,step',
  'part;step',
  'part',
  ' part , ',
  '"part" ,"step"',
  '"a;b",part,step',
  'Cycle time (sec),STEP',
])('%s is it below a title', (line) => {
  expect(found(TITLE, 'a,b', line)).toEqual({ at: 2, above: 2 });
});

test.each(['part,x', 'x', 'x,y', '"part"x,"y"', 'pa"rt"', '"pa"rt'])('%s is not', (line) => {
  expect(found(TITLE, line)).toEqual({ at: 0, above: 0 });
});

test('lines without text do not count among those above; eight below the first are looked at', () => {
  expect(headerLine([TITLE, '', '', 'part'], [0, 3], routeColumns)).toEqual({ at: 3, above: 1 });
  const below = (count: number) => [TITLE, ...Array<string>(count).fill('a,b'), 'part,step'];
  expect(found(...below(7))).toEqual({ at: 8, above: 8 });
  expect(found(...below(8))).toEqual({ at: 0, above: 0 });
});

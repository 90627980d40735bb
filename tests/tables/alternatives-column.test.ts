// Stations with bars between them: where each stands in the cell, and what is wrong with one of them.
import { expect, it } from 'vitest';
import { alternativesColumn } from '../../src/tables/route-columns.js';

const read = (text: string) => alternativesColumn('where').read(text, { decimalComma: false });

it('each alternative has its name and its place in the cell, without the spaces around it', () => {
  expect(read('mill')).toEqual({ ok: true, value: [{ name: 'mill', span: [0, 4] }] });
  expect(read('mill_1|  mill_2 |saw')).toEqual({
    ok: true,
    value: [
      { name: 'mill_1', span: [0, 6] },
      { name: 'mill_2', span: [9, 15] },
      { name: 'saw', span: [17, 20] },
    ],
  });
});

it('nothing beside a bar is refused', () => {
  for (const text of ['mill|', '|mill', 'mill||saw', 'mill| |saw'])
    expect(read(text), text).toEqual({
      ok: false,
      fault: {
        code: 'ROU14',
        text: `found an empty place beside a bar in \`${text}\`, expected a station`,
        help: 'Leave out the bar that is too many.',
      },
    });
});

it('a name that is there already is refused where it stands', () => {
  expect(read('mill | saw| mill')).toEqual({
    ok: false,
    fault: {
      code: 'ROU06',
      text: '`mill` is named twice in one step',
      help: 'Name each alternative once.',
      span: [12, 16],
    },
  });
});

it('what is no name is refused where it stands', () => {
  expect(read('mill|*')).toMatchObject({
    ok: false,
    fault: { span: [5, 6], text: expect.stringContaining('means all stations') },
  });
  expect(read(`mill|${'m'.repeat(65)}`)).toMatchObject({ ok: false, fault: { span: [5, 70] } });
});

// Price breaks as they stand in costs.csv: quantities that rise, each with the price of one from there on.
import { describe, expect, it } from 'vitest';
import { readPriceBreaks } from '../../src/tables/costs-table.js';

const style = { decimalComma: false };
const faultOf = (text: string) => {
  const reading = readPriceBreaks(text, style);
  return reading.ok ? null : reading.fault;
};

describe('price breaks', () => {
  it.each([
    ['1:900', '1:900'],
    ['1:900;4:820', '1:900;4:820'],
    [' 1 : 900.50 ; 4:820 ;10: 0', '1:900.5;4:820;10:0'],
  ])('%s are read', (text, value) => {
    expect(readPriceBreaks(text, style)).toMatchObject({ ok: true, value });
  });

  it.each(['1', ':900', '1:', '1:2:3', '1.5:900', '1:-5', 'x:900', '1:x', '', '1:2:'])(
    '%j are a break that is not one',
    (text) => {
      expect(faultOf(text)).toEqual({
        code: 'COS06',
        text: `found \`${text}\`, expected price breaks such as \`1:900;4:820\`, with quantities that rise`,
        help: 'Each break is a whole number of boxes, a colon and the price of one.',
        span: [0, text.length],
      });
    },
  );

  it('that do not rise are told at the one that does not', () => {
    const help = (before: number) => `The quantity after ${before} must be larger than it.`;
    expect(faultOf('0:900')).toMatchObject({ help: help(0), span: [0, 5] });
    expect(faultOf('1:900; 4:82;4:810')).toMatchObject({ help: help(4), span: [12, 17] });
    expect(faultOf('1:900;5:820;4:810')).toMatchObject({ help: help(5), span: [12, 17] });
  });

  it('are marked with the spaces around them and told without', () => {
    const fault = faultOf('1:900; x ;4:810');
    expect(fault?.text).toMatch(/^found `x`,/);
    expect(fault?.span).toEqual([6, 9]);
  });
});

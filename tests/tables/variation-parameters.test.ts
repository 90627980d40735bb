// The parameters of each distribution: what is read, how it may be written, and what is told where it is wrong.
import { describe, expect, it } from 'vitest';
import { inspectTables } from '../../src/tables/inspect-tables.js';
import { changedTables } from './sound-tables.js';

const HEADER = 'station,element,distribution,a,b,c\n';
const inspect = (text: string) => inspectTables(changedTables([['variation.csv', null, text]]));

/** The parameters of one row, or the codes and columns of what is wrong with it. */
function row(cells: string) {
  const { cell, complaints } = inspect(`${HEADER}*,cycle,${cells}\n`);
  return cell?.variation[0]?.parameters ?? complaints.map(({ code, column }) => `${code} ${column}`);
}

describe('parameters', () => {
  it('are read in their order', () => {
    expect(row('constant,12,,')).toEqual([12]);
    expect(row('lognormal,240,12,')).toEqual([240, 12]);
    // A shape above the mean is no fault of order.
    expect(row('gamma,2,30,')).toEqual([2, 30]);
    expect(row('readings,4.1| 7.25 |5,,')).toEqual([4.1, 7.25, 5]);
  });

  it('that are lacking or too many are told each where it is', () => {
    expect(row('lognormal,240,,')).toEqual(['VAR02 b']);
    expect(row('lognormal,,,')).toEqual(['VAR02 a', 'VAR02 b']);
    expect(row('constant,12,3,4')).toEqual(['VAR03 b', 'VAR03 c']);
    // A column that is not there: at the distribution.
    const { complaints } = inspect('station,element,distribution,a\n*,cycle,lognormal,240\n');
    expect(complaints.map(({ code, column }) => [code, column])).toEqual([['VAR02', 'distribution']]);
  });
});

describe('three points', () => {
  it('rise, and two of them may be one', () => {
    for (const name of ['triangular', 'pert']) {
      expect(row(`${name},1,2,4`)).toEqual([1, 2, 4]);
      expect(row(`${name},1,1,4`)).toEqual([1, 1, 4]);
      expect(row(`${name},1,4,4`)).toEqual([1, 4, 4]);
      for (const wrong of ['2,1,4', '1,5,4', '4,4,4', '4,2,1'])
        expect(row(`${name},${wrong}`)).toEqual(['VAR04 a']);
    }
    const { complaints } = inspect(`${HEADER}*,cycle,pert,2,1,4\n`);
    expect(complaints[0]?.text).toBe(
      'found low 2, likely 1, high 4, expected low <= likely <= high with low < high',
    );
  });

  it('of which one is lacking or wrong are told for that alone', () => {
    expect(row('triangular,,2,1')).toEqual(['VAR02 a']);
    expect(row('triangular,5,,1')).toEqual(['VAR02 b']);
    expect(row('triangular,5,2,')).toEqual(['VAR02 c']);
    expect(row('triangular,5,x,1')).toEqual(['VAL02 b']);
  });
});

describe('readings', () => {
  it('are two or more', () => {
    expect(row('readings,5,,')).toEqual(['VAR02 a']);
    expect(row('readings,,,')).toEqual(['VAR02 a']);
  });

  it('have each its own place in the cell', () => {
    const marked = (cells: string) => {
      const { excerpt } = inspect(`${HEADER}*,cycle,${cells}\n`).complaints[0]!;
      return excerpt?.text.slice(excerpt.start, excerpt.end);
    };
    expect(marked('readings,4|x|5,,')).toBe('x');
    expect(marked('readings,4|5|-1,,')).toBe('-1');
    expect(marked('constant,x,,')).toBe('x');
    expect(row('readings,4|x|-5,,')).toEqual(['VAL02 a', 'VAR04 a']);
  });
});

describe('a decimal comma', () => {
  it('is read where it can be nothing else; a single value is named', () => {
    const single = inspect(`${HEADER}*,cycle,constant,"1,5",,\n`);
    expect(single.cell?.variation[0]?.parameters).toEqual([1.5]);
    expect(single.readAs).toEqual([
      { file: 'variation.csv', line: 2, column: 'a', found: '1,5', taken: '1.5' },
    ]);
    const several = inspect(`${HEADER}*,cycle,readings,"1,5|2,5",,\n`);
    expect(several.cell?.variation[0]?.parameters).toEqual([1.5, 2.5]);
    expect(several.readAs).toEqual([]);
  });

  it('is plain between semicolons, and asked about between commas', () => {
    const { cell, readAs } = inspect('station;element;distribution;a;b;c\n*;cycle;constant;1,250;;\n');
    expect([cell?.variation[0]?.parameters, readAs]).toEqual([[1.25], []]);
    expect(row('constant,"1,250",,')).toEqual(['VAL02 a']);
  });
});

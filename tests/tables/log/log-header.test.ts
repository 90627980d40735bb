/** The header of a log: where its columns stand, and when the log cannot be read with it. */
import { describe, expect, it } from 'vitest';
import { complaintList } from '../../../src/tables/complaint-list.js';
import { readLogHeader } from '../../../src/tables/log/log-header.js';

function read(line: string, lineNumber = 1) {
  const list = complaintList();
  const header = readLogHeader(list, 'log.csv', line, lineNumber);
  return { header, complaints: list.sorted() };
}

describe('columns', () => {
  it('stand where the header names them; -1 = not there', () => {
    expect(read('time,station,signal').header).toEqual({
      ...{ delimiter: ',', width: 3, time: 0, station: 1, signal: 2, value: -1, part: -1 },
    });
    expect(read('part;value;signal;time;station').header).toEqual({
      ...{ delimiter: ';', width: 5, time: 3, station: 4, signal: 2, value: 1, part: 0 },
    });
    expect(read('time,station,signal').complaints).toEqual([]);
  });

  it('of another name are told on the line where the header stands', () => {
    const { complaints } = read('time,station,signals', 4);
    expect(complaints.length).toBeGreaterThan(0);
    expect(complaints.every(({ file, line }) => file === 'log.csv' && line === 4)).toBe(true);
  });

  it('that are missing leave no header', () => {
    const { header, complaints } = read('time,signal', 3);
    expect(header).toBeNull();
    expect(complaints.some(({ severity }) => severity === 'error')).toBe(true);
    expect(complaints[0]).toMatchObject({ file: 'log.csv', line: 3 });
  });
});

describe('a log', () => {
  it('separated by tabs is refused', () => {
    const { header, complaints } = read('time\tstation\tsignal', 2);
    expect(header).toBeNull();
    expect(complaints).toHaveLength(1);
    expect(complaints[0]).toMatchObject({
      ...{ code: 'TAB08', file: 'log.csv', line: 2, column: null, excerpt: null },
      text: 'the columns are separated by tabs, expected commas or semicolons',
    });
  });

  it('whose header is no record is refused', () => {
    const { header, complaints } = read('time,"station,signal', 2);
    expect(header).toBeNull();
    expect(complaints[0]).toMatchObject({ severity: 'error', line: 2 });
  });
});

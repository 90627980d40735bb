// Tables remembered between readings: the same cells and the same complaints as without.
import { describe, expect, it } from 'vitest';
import { inspectTables } from '../../src/tables/inspect-tables.js';
import { tableMemory } from '../../src/tables/table-memory.js';
import { soundTables } from './sound-tables.js';

describe('reading with a memory', () => {
  const base: Record<string, string> = {
    ...soundTables,
    'stops.csv': 'station,name,every_parts,every_h,minutes,operator\n',
  };
  const variants = [
    base,
    base,
    { ...base, 'robot.csv': base['robot.csv'].replace(/hands,\d/, 'hands,2') },
    { ...base, 'stops.csv': `${base['stops.csv']}ghost,tool,5,,2,no\n` },
    { ...base, 'stops.csv': `${base['stops.csv']}ghost,tool,5,,2,no\n` },
    { ...base, 'stations.csv': base['stations.csv'].replaceAll('mill', 'mull') },
    base,
  ];

  it('gives what a reading without one gives, each time', () => {
    const memory = tableMemory();
    for (const tables of variants) expect(inspectTables(tables, [], memory)).toEqual(inspectTables(tables));
  });

  it('keeps rows by the texts that they depend on', () => {
    const memory = tableMemory();
    const rows = [1, 2];
    memory.keep('stops.csv', ['a', 'b'], rows);
    expect(memory.recall('stops.csv', ['a', 'b'])).toBe(rows);
    expect(memory.recall('stops.csv', ['a', 'c'])).toBeNull();
    expect(memory.recall('shifts.csv', ['a', 'b'])).toBeNull();
  });
});

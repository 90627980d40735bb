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

  it('reads rows anew where a table whose names or hours they use has changed', () => {
    const oven = 'oven,bench,1,2,,,,,,\n';
    const stops = `${base['stops.csv']}oven,clean,5,,2,no\n`;
    const withOven = { ...base, 'stations.csv': `${base['stations.csv']}${oven}`, 'stops.csv': stops };
    const lid = base['routes.csv']!.replaceAll('cap,', 'lid,').replace(/^.*\n/, '');
    const parts = `${base['parts.csv']}lid,1,,,\n`;
    const withLid = { ...base, 'routes.csv': `${base['routes.csv']}${lid}`, 'parts.csv': parts };
    const jobs = `${base['jobs.csv']}j3,lid,5,,,\n`;
    const lidJob = { ...withLid, 'parts.csv': base['parts.csv']!, 'jobs.csv': jobs };
    const often = {
      ...base,
      'changeovers.csv': base['changeovers.csv']!.replace('mill_1,40', 'mill_1,6000'),
    };
    const changed: readonly (readonly [Record<string, string>, Record<string, string>])[] = [
      [withOven, { ...withOven, 'stations.csv': base['stations.csv']! }],
      [withLid, { ...withLid, 'routes.csv': base['routes.csv']! }],
      [lidJob, { ...lidJob, 'routes.csv': base['routes.csv']! }],
      [{ ...often, 'shifts.csv': base['shifts.csv']!.replace('14:00', '20:00') }, often],
    ];
    for (const [sound, wrong] of changed) {
      const memory = tableMemory();
      const first = inspectTables(sound, [], memory);
      expect(first.cell).not.toBeNull();
      const told = inspectTables(wrong, [], memory).complaints;
      expect(told).toEqual(inspectTables(wrong).complaints);
      expect(told).not.toEqual(first.complaints);
    }
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

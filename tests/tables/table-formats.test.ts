/** The tables described as data agree with the contract and with what the reader does. */
import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { costItems } from '../../src/core/model/cost-items.js';
import { complaintCodes } from '../../src/tables/complaint-codes.js';
import { inspectTables } from '../../src/tables/inspect-tables.js';
import { tableFormats } from '../../src/tables/table-formats.js';
import { soundTables } from './sound-tables.js';

describe('the contract’s columns', () => {
  test.each([
    ['stations.csv', 'station,kind,x_m,y_m,capacity,ready_s,close_s,cost_per_h,mtbf_h,mttr_min'],
    ['routes.csv', 'part,step,stations,cycle_s,load_s,unload_s,max_wait_s,parts_per_cycle,every'],
    ['robot.csv', 'setting,value'],
    ['travel.csv', 'from,to,empty_s,loaded_s'],
    ['parts.csv', 'part,contribution,per_shift,per_week,ratio,yield_pct,unattended'],
    ['shifts.csv', 'pattern,shift,days,start,end,breaks,attended,operators,labour_per_h,breaks_stop'],
    ['stops.csv', 'station,name,every_parts,every_h,minutes,operator,early_parts'],
    ['variation.csv', 'station,element,distribution,a,b,c'],
    ['changeovers.csv', 'station,per_year,minutes_other,internal_pct,people'],
    ['setups.csv', 'station,from,to,minutes'],
    ['jobs.csv', 'job,part,quantity,due,not_before,setup_min'],
    ['signals.csv', 'station,signal,direction,kind,volts,milliamps,normally,cable_m,cable_mm2,safety'],
    ['costs.csv', 'item,value,low,high,unit,source'],
  ])('%s', (file, columns) => {
    const format = tableFormats.find((f) => f.file === file);
    expect(format?.columns.map((c) => c.name).join(',')).toBe(columns);
  });

  test('three tables are needed', () => {
    const needed = tableFormats.filter((f) => f.needed).map((f) => f.file);
    expect(needed).toEqual(['stations.csv', 'routes.csv', 'robot.csv']);
  });

  test('the settings of the robot', () => {
    const settings = tableFormats.find((f) => f.file === 'robot.csv')?.settings?.map((s) => s.name);
    expect(settings).toEqual([
      'hands',
      'index_s',
      'speed_m_s',
      'accel_m_s2',
      'travel_s',
      'attended_speed_pct',
      'cost_per_h',
    ]);
  });

  test('a needed column has no default, any other has one in words', () => {
    for (const column of tableFormats.flatMap((f) => [...f.columns, ...(f.settings ?? [])])) {
      expect(column.default === null, column.name).toBe(column.needed);
      expect(column.meaning, column.name).not.toBe('');
      expect(column.allowed, column.name).not.toBe('');
    }
  });
});

test('the order of the columns is free', () => {
  const reversed = Object.fromEntries(
    Object.entries(soundTables).map(([file, text]) => [
      file,
      text.replace(/[^\n]+/g, (line) => line.split(',').reverse().join(',')),
    ]),
  );
  const { cell, complaints } = inspectTables(reversed);
  expect(complaints).toEqual([]);
  expect(cell).toEqual(inspectTables(soundTables).cell);
});

describe('cost items', () => {
  test('are named once, each with a meaning, defaults within their range', () => {
    expect(new Set(costItems.map((i) => i.name)).size).toBe(costItems.length);
    for (const item of costItems) {
      expect(item.meaning, item.name).not.toBe('');
      if (item.kind === 'choice') expect(item.choices, item.name).toContain(item.default);
      if (typeof item.default === 'number') expect(item.default, item.name).toBeGreaterThanOrEqual(item.min);
    }
  });

  test('hold those of the contract', () => {
    const contract = `labour_per_h box_price box_inputs box_outputs box_amps box_mount_h box_wire_min_per_signal
      box_upkeep_per_year box_salvage cable_set_price install_per_h harness_price boxes_per_machine connector_price
      connector_matings harness_connectors harness_min_per_connector harness_carry_min check_min_per_signal
      fault_chance_harness fault_chance_box fault_find_min box_plug_min box_check_min horizon_years discount_pct
      tax_pct depreciation budget currency machine_constrained contribution_per_machine_h box_price_breaks`;
    expect(costItems.map((i) => i.name)).toEqual(expect.arrayContaining(contract.split(/\s+/)));
  });

  test('are all read from the table with a value of their kind', () => {
    const sample = (item: (typeof costItems)[number]): string => {
      if (item.kind === 'choice') return item.choices[0] as string;
      if (item.kind === 'price breaks') return '1:900;4:820';
      if (item.kind === 'text') return 'crowns';
      return String(item.max ?? Math.max(item.min, 1));
    };
    const rows = costItems.map((item) => `${item.name},${sample(item)}`).join('\n');
    const { cell, complaints } = inspectTables({ ...soundTables, 'costs.csv': `item,value\n${rows}\n` });
    // The largest values make some slips likely, which are asked about.
    expect(complaints.filter((c) => c.severity === 'error')).toEqual([]);
    expect(cell?.costs.map((c) => c.item)).toEqual(costItems.map((i) => i.name));
  });
});

test('every code has a test of its printed text', () => {
  const folders = ['tests/tables', 'tests/files', 'tests/workbook', 'tests/cli'].map(
    (f) => new URL(`../../${f}/`, import.meta.url),
  );
  const texts = folders.flatMap((folder) =>
    readdirSync(folder, { recursive: true, encoding: 'utf8' })
      .filter((file) => file.endsWith('.test.ts'))
      .map((file) => readFileSync(new URL(file, folder), 'utf8')),
  );
  const printed = new Set(texts.join('\n').match(/(?<=(error|warning) )[A-Z]{3}\d\d/g));
  expect(Object.keys(complaintCodes).filter((code) => !printed.has(code))).toEqual([]);
});

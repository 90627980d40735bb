/** What an empty or absent cell means, table by table, as the contract states it. */
import { describe, expect, test } from 'vitest';
import { renderComplaints } from '../../src/render/complaints.js';
import { inspectTables } from '../../src/tables/inspect-tables.js';
import { readCell } from '../../src/tables/read-cell.js';

const least = {
  'stations.csv': 'station,kind\nin,infeed\nmill,machine\nout,outfeed\n',
  'routes.csv': 'part,step,stations\ncap,1,in\ncap,2,mill\ncap,3,out\n',
  'robot.csv': 'setting,value\ntravel_s,3\n',
};

function readWith(tables: Record<string, string>) {
  return readCell({ ...least, ...tables });
}

describe('the least cell', () => {
  const cell = readCell(least);

  test('stations', () => {
    expect(cell.stations[1]).toEqual({
      name: 'mill',
      kind: 'machine',
      xM: null,
      yM: null,
      capacityParts: 1,
      readyS: 0,
      closeS: 0,
      costPerH: 0,
      mtbfH: null,
      mttrMin: null,
      at: { file: 'stations.csv', line: 3 },
    });
    expect(cell.stations.map((s) => s.capacityParts)).toEqual([null, 1, null]);
  });

  test('routes', () => {
    expect(cell.routes).toHaveLength(1);
    expect(cell.routes[0]?.steps[1]).toEqual({
      step: 2,
      stations: ['mill'],
      cycleS: 0,
      loadS: 0,
      unloadS: 0,
      maxWaitS: null,
      partsPerCycle: 1,
      everyParts: 1,
      at: { file: 'routes.csv', line: 3 },
    });
  });

  test('robot', () => {
    expect(cell.robot).toEqual({
      hands: 1,
      indexS: 0,
      speedMS: null,
      accelMS2: null,
      travelS: 3,
      attendedSpeedPct: 100,
      costPerH: 0,
    });
  });

  test('tables that are not given are empty', () => {
    const { travel, parts, shifts, stops, variation, changeovers, signals, costs } = cell;
    expect([travel, parts, shifts, stops, variation, changeovers, signals, costs]).toEqual(Array(8).fill([]));
  });
});

test('a robot table without rows leaves every setting at its default, and is warned of', () => {
  const travel = 'from,to,empty_s\nin,mill,2\nin,out,3\nmill,out,2\n';
  const { cell, complaints } = inspectTables({
    ...least,
    'robot.csv': 'setting,value\n',
    'travel.csv': travel,
  });
  expect(cell?.robot).toMatchObject({ hands: 1, travelS: null });
  expect(renderComplaints(complaints, { colour: false })).toBe(`robot.csv  warning TAB07
  The table has a header and no rows.
  Fix: Add the settings that differ from their defaults.

1 warning in 1 file.
`);
});

describe('capacity', () => {
  test('is by default the largest number of parts that a step loads there', () => {
    const routes =
      'part,step,stations,parts_per_cycle\na,1,in,\na,2,mill,4\na,3,out,\nb,1,in,\nb,2,mill,2\nb,3,out,\n';
    expect(readWith({ 'routes.csv': routes }).stations[1]?.capacityParts).toBe(4);
  });

  test('of an infeed is as given', () => {
    const stations = 'station,kind,capacity\nin,infeed,60\nmill,machine,\nout,outfeed,\n';
    expect(readWith({ 'stations.csv': stations }).stations[0]?.capacityParts).toBe(60);
  });
});

test('travel: loaded_s defaults to empty_s', () => {
  const { travel } = readWith({ 'travel.csv': 'from,to,empty_s\nin,mill,2.5\n' });
  expect(travel).toEqual([
    { from: 'in', to: 'mill', emptyS: 2.5, loadedS: 2.5, at: { file: 'travel.csv', line: 2 } },
  ]);
});

test('parts: nothing asked, all good', () => {
  const { parts } = readWith({ 'parts.csv': 'part\ncap\n' });
  expect(parts[0]).toMatchObject({ contribution: null, perShift: null, ratio: null, yieldPct: 100 });
});

describe('shifts', () => {
  test('attended by one operator, no breaks, no labour cost', () => {
    const { shifts } = readWith({
      'shifts.csv': 'pattern,shift,days,start,end\none,day,Mon-Wed,6:00,14:30:00\n',
    });
    expect(shifts[0]).toEqual({
      pattern: 'one',
      shift: 'day',
      days: ['Mon', 'Tue', 'Wed'],
      startMin: 360,
      endMin: 870,
      breaks: [],
      attended: true,
      operators: 1,
      labourPerH: 0,
      at: { file: 'shifts.csv', line: 2 },
    });
  });

  test('a night shift ends on the next day, and so do its late breaks', () => {
    const row = 'one,night,"Sat,Sun-Mon",22:00,06:00,02:00-02:30;23:30-00:15,no';
    const { shifts } = readWith({ 'shifts.csv': `pattern,shift,days,start,end,breaks,attended\n${row}\n` });
    expect(shifts[0]).toMatchObject({
      days: ['Mon', 'Sat', 'Sun'],
      startMin: 1320,
      endMin: 1800,
      operators: 0,
    });
    expect(shifts[0]?.breaks).toEqual([
      { startMin: 1410, endMin: 1455 },
      { startMin: 1560, endMin: 1590 },
    ]);
  });

  test('an end equal to the start makes a shift of 24 hours, every day of the week', () => {
    const { shifts } = readWith({
      'shifts.csv': 'pattern,shift,days,start,end\none,day,Fri-Thu,06:00,06:00\n',
    });
    expect(shifts[0]).toMatchObject({ startMin: 360, endMin: 1800 });
    expect(shifts[0]?.days).toEqual(['Mon', 'Tue', 'Wed', 'Thu', 'Fri', 'Sat', 'Sun']);
  });

  test('shifts that follow one another over the end of the week do not overlap', () => {
    const rows = 'one,day,Mon-Sun,06:00,18:00\none,night,Mon-Sun,18:00,06:00\n';
    expect(readWith({ 'shifts.csv': `pattern,shift,days,start,end\n${rows}` }).shifts).toHaveLength(2);
  });
});

test('stops wait for an operator', () => {
  const { stops } = readWith({ 'stops.csv': 'station,name,every_h,minutes\nmill,clean,8,10\n' });
  expect(stops[0]).toMatchObject({ everyParts: null, everyH: 8, minutes: 10, operator: true });
});

test('changeovers: the machine stands throughout, one person', () => {
  const { changeovers } = readWith({ 'changeovers.csv': 'station,per_year\nmill,40\n' });
  expect(changeovers[0]).toMatchObject({ minutesOther: 0, internalPct: 100, people: 1 });
});

test('signals: digital, no safety function', () => {
  const { signals } = readWith({ 'signals.csv': 'station,signal,direction\nmill,door,in\n' });
  expect(signals[0]).toMatchObject({
    kind: 'digital',
    volts: null,
    milliamps: null,
    normally: null,
    cableM: null,
    cableMm2: null,
    safety: false,
  });
});

test('variation: parameters in order, readings in full', () => {
  const rows = 'mill,cycle,pert,8,10,15\n*,load,readings,3|3.5|4,,\nmill,unload,constant,2,,\n';
  const { variation } = readWith({ 'variation.csv': `station,element,distribution,a,b,c\n${rows}` });
  expect(variation.map((v) => v.parameters)).toEqual([[8, 10, 15], [3, 3.5, 4], [2]]);
});

test('costs: numbers as numbers, words as words, price breaks in one spelling', () => {
  const rows =
    'box_price;900,5;800;1000;;quotation\ndepreciation;macrs-5;;;;\nbox_price_breaks;" 1:900,5 ; 4:820";;;;\n';
  const { costs } = readWith({ 'costs.csv': `item;value;low;high;unit;source\n${rows}` });
  expect(costs.map((c) => c.value)).toEqual([900.5, 'macrs-5', '1:900.5;4:820']);
  expect(costs[0]).toMatchObject({ item: 'box_price', low: 800, high: 1000, unit: '', source: 'quotation' });
});

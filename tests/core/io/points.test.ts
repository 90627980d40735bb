/** Points, boxes, supply and cables against published and recomputed values. */
import { describe, expect, it } from 'vitest';
import { boxesNeeded, signalDemand } from '../../../src/core/io/boxes-needed.js';
import { conductorOhmPerKm, FLEXIBLE_OHM_PER_KM } from '../../../src/core/io/conductor-resistance.js';
import { fuseFor } from '../../../src/core/io/fuse-size.js';
import { points } from '../../../src/core/io/points.js';
import { voltageDrop } from '../../../src/core/io/voltage-drop.js';
import type { Signal } from '../../../src/core/model/cell.js';
import { referenceChecks } from '../../support/reference.js';
import { changeoverRow, costCell, type ItemValue, signalRows } from '../cost/support/cost-cell.js';

interface Check {
  readonly id: string;
  readonly inputs: Record<string, number>;
  readonly expected: number | readonly number[];
  readonly tolerance: number;
}
const checks = referenceChecks<Check>('electrical');
function expectClose(id: string, ...actual: number[]): void {
  const check = checks.find((c) => c.id === id)!;
  const wanted = [check.expected].flat() as number[];
  expect(actual.length, id).toBe(wanted.length);
  wanted.forEach((value, k) => {
    expect(Math.abs(actual[k]! - value), `${id} [${k}] ${actual[k]}`).toBeLessThanOrEqual(
      check.tolerance + 1e-12,
    );
  });
}

const BOX: Record<string, ItemValue> = { box_inputs: 16, box_outputs: 16, box_amps: 4 };
const signal = (more: Partial<Signal>): Signal => ({ ...signalRows('mill', 1, 0)[0]!, ...more });
const pointsOf = (signals: readonly Signal[], items: Record<string, ItemValue> = BOX) =>
  points(costCell(items, [changeoverRow('mill', 1), changeoverRow('lathe', 1)], signals));

describe('conductors', () => {
  it('resistance limits of the standards', () => {
    const sections = ['0.5', '0.75', '1', '1.5', '2.5'];
    expectClose('el.iec60228.class5', ...sections.map((s) => FLEXIBLE_OHM_PER_KM[s]!));
    expectClose('el.belowStandard', conductorOhmPerKm(0.25), conductorOhmPerKm(0.34));
    expectClose('el.r70', conductorOhmPerKm(0.5, 70));
  });
  it('a section that the table lacks is never taken as better than its neighbours say', () => {
    expect(conductorOhmPerKm(0.6)).toBeGreaterThan(FLEXIBLE_OHM_PER_KM['0.75']!);
    for (const [section, ohm] of Object.entries(FLEXIBLE_OHM_PER_KM))
      expect(conductorOhmPerKm(Number(section) + 1e-9)).toBeGreaterThanOrEqual(ohm - 1e-6);
    // el.rho: copper of the international standard resistivity lies below the limit.
    const pure = checks.find((c) => c.id === 'el.rho')!.expected as number;
    expect(pure).toBeLessThan(FLEXIBLE_OHM_PER_KM['0.5']!);
    expect(0.017241 * (1000 / 0.5)).toBeCloseTo(pure, 3);
  });
  it('voltage drop, there and back', () => {
    for (const id of ['el.vdrop.0.25', 'el.vdrop.0.5', 'el.vdrop.0.75']) {
      const { I_A, L_m, area_mm2 } = checks.find((c) => c.id === id)!.inputs;
      expectClose(id, voltageDrop(I_A!, L_m!, area_mm2!));
    }
    const far = pointsOf([signal({ milliamps: 500, cableM: 20, cableMm2: 0.5, volts: 24 })]);
    expectClose('el.vdrop.percent', far.stations[0]!.voltageDropPct!);
    expect(() => voltageDrop(-1, 1, 1)).toThrow('the current is -1 A');
    expect(() => voltageDrop(1, Number.NaN, 1)).toThrow('the cable length is NaN m');
    expect(() => conductorOhmPerKm(0)).toThrow('the section is 0 mm2');
  });
});

describe('supply', () => {
  it('el.budget.golden: inputs, coils, relays and electronics, with the reserve', () => {
    const coil = { direction: 'out' as const, milliamps: 4500 / 24 };
    const relay = { direction: 'out' as const, milliamps: 400 / 24 };
    const signals = [
      ...Array.from({ length: 16 }, (_, k) => signal({ signal: `in_${k}`, milliamps: 3 })),
      ...Array.from({ length: 4 }, (_, k) => signal({ ...coil, signal: `coil_${k}` })),
      ...Array.from({ length: 4 }, (_, k) => signal({ ...relay, signal: `relay_${k}` })),
    ];
    const found = pointsOf(signals, { ...BOX, box_own_milliamps: 80, supply_reserve_pct: 25 }).stations[0]!;
    expectClose('el.budget.golden', found.amps, found.ampsWithReserve);
    expect(found).toMatchObject({
      inputs: 16,
      outputs: 8,
      boxes: 1,
      spareInputs: 0,
      spareOutputs: 8,
      warnings: [],
    });
  });
  it('el.fuse80: the fuse for a current that flows for hours', () => {
    const { leastA, stockA } = fuseFor(checks.find((c) => c.id === 'el.fuse80')!.inputs.I!, 80);
    expectClose('el.fuse80', leastA, stockA!);
    expect(fuseFor(100, 80).stockA).toBeNull();
    expect(() => fuseFor(1, 0)).toThrow('it must be above 0 and at most 100');
  });
  it('el.output.class: eight outputs of half an ampere fill a box of 4 A, and its fuse beyond 80%', () => {
    const outputs = Array.from({ length: 8 }, (_, k) =>
      signal({ direction: 'out', signal: `out_${k}`, milliamps: 500 }),
    );
    const found = pointsOf(outputs).stations[0]!;
    const [watts, amps] = checks.find((c) => c.id === 'el.output.class')!.expected as number[];
    expect(found.amps).toBeCloseTo(amps!, 12);
    expect((found.amps / 8) * 24).toBeCloseTo(watts!, 12);
    expect(found.boxes).toBe(1);
    expect(found.warnings).toEqual([
      'Each box carries 4.00 A, more than 80% of its 4 A fuse; it needs 5.00 A or more (a common size is 5 A), within what the box is rated for.',
    ]);
  });
});

describe('boxes', () => {
  const box = { inputs: 16, outputs: 8, amps: 4 };
  it('enough for inputs, outputs and current, whichever asks for most', () => {
    const need = (inputs: number, outputs: number, loadA: number) =>
      boxesNeeded({ inputs, outputs, loadA, withoutCurrent: 0 }, box);
    expect(need(16, 8, 4)).toBe(1);
    expect(need(17, 8, 4)).toBe(2);
    expect(need(1, 25, 1)).toBe(4);
    expect(need(1, 1, 8.1)).toBe(3);
    expect(need(0, 0, 0)).toBe(0);
    expect(boxesNeeded({ ...signalDemand([]), loadA: 0.1 + 0.2 }, { ...box, amps: 0.3 })).toBe(1);
    expect(() => boxesNeeded(signalDemand([]), { ...box, amps: 0 })).toThrow(
      'more than 0 inputs, outputs and amperes',
    );
  });
  it('stations come in the order of the table, with their spare points', () => {
    const found = pointsOf([...signalRows('lathe', 3, 2), ...signalRows('mill', 20, 4)]);
    expect(found.stations.map((s) => [s.station, s.boxes, s.spareInputs, s.spareOutputs])).toEqual([
      ['mill', 2, 12, 28],
      ['lathe', 1, 13, 14],
    ]);
    expect(found.boxesTotal).toBe(3);
  });
  it('without the data sheet it counts points and says what is missing', () => {
    const found = pointsOf(signalRows('mill', 3, 2), { box_inputs: 16 });
    expect(found.stations[0]).toMatchObject({ inputs: 3, outputs: 2, boxes: null, spareInputs: null });
    expect(found.missing).toEqual(['box_outputs', 'box_amps']);
    expect(found.warnings).toEqual([
      'How many boxes are needed cannot be said: costs.csv gives no box_outputs, box_amps.',
    ]);
  });
  it('no signals at all is said, not passed over', () => {
    expect(pointsOf([]).warnings).toEqual(['signals.csv names no signal, so there are no points to count.']);
  });
});

describe('warnings', () => {
  it('a safety function on a general-purpose point, marked or by its name', () => {
    const marked = pointsOf([signal({ signal: 'door_ok', safety: true })]).stations[0]!.warnings;
    expect(marked).toEqual([
      '`door_ok` is a safety function: it belongs in the safety-rated circuit (ISO 13849-1, IEC 62061), not on a general-purpose point of the box.',
    ]);
    for (const name of ['e_stop', 'E-Stop 2', 'guard_closed', 'scanner', 'light curtain', 'emergency_stop'])
      expect(pointsOf([signal({ signal: name })]).stations[0]!.warnings[0], name).toContain(
        'sounds like a safety function',
      );
    for (const name of ['cycle_start', 'door_open', 'best_opening', 'custom'])
      expect(pointsOf([signal({ signal: name })]).stations[0]!.warnings, name).toEqual([]);
  });
  it('a cable that loses too much, and signals without a current', () => {
    const coil = signal({ direction: 'out', signal: 'valve', milliamps: 1000, cableM: 50, cableMm2: 0.5 });
    const sensor = signal({ signal: 'sensor', milliamps: 1000, cableM: 80, cableMm2: 0.5 });
    const bare = signal({ signal: 'bare', milliamps: null });
    const { warnings, voltageDropPct, voltageDropAt } = pointsOf([coil, sensor, bare]).stations[0]!;
    expect(warnings[0]).toBe(
      '1 of 3 signals give no milliamps and count as 0 A, so the true current is higher.',
    );
    expect(warnings[1]).toMatch(/^`valve` loses 3\.90 V of 24 V on its cable \(16\.3%\); coils/);
    expect(warnings[2]).toMatch(/^`sensor` loses 6\.24 V of 24 V .*IEC 61131-2/);
    expect(voltageDropPct).toBeCloseTo(26, 9);
    expect(voltageDropAt).toBe('sensor');
  });
  it('el.type1.margin: an input loses 5.4 V at most when the supply is at its lowest', () => {
    const margin = checks.find((c) => c.id === 'el.type1.margin')!.expected as number;
    const [lowest] = checks.find((c) => c.id === 'el.iec61131.supply')!.expected as number[];
    expect(24 * 0.85).toBeCloseTo(lowest!, 9);
    const at = (volts: number) => (volts * 1000) / (2 * 39);
    const sensor = (volts: number) =>
      pointsOf([signal({ milliamps: 1000, cableM: at(volts), cableMm2: 0.5 })]).stations[0]!.warnings.length;
    expect(sensor(margin - 0.001)).toBe(0);
    expect(sensor(margin + 0.001)).toBe(1);
  });
});

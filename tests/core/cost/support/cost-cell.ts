/** A small cell for tests of the cost case: only the tables that it reads are filled. */
import type { Cell, Changeover, CostItem, Signal } from '../../../../src/core/model/cell.js';

export type ItemValue = number | string | readonly [value: number, low: number | null, high: number | null];

/** Rows of costs.csv from `{ item: value }` or `{ item: [value, low, high] }`. */
export function costRows(items: Readonly<Record<string, ItemValue>>): CostItem[] {
  return Object.entries(items).map(([item, given], k) => {
    const [value, low, high] = Array.isArray(given) ? given : [given, null, null];
    return { item, value, low, high, unit: '', source: 'test', at: { file: 'costs.csv', line: k + 2 } };
  });
}

export function changeoverRow(station: string, perYear: number, more: Partial<Changeover> = {}): Changeover {
  const at = { file: 'changeovers.csv', line: 2 };
  return { station, perYear, minutesOther: 0, internalPct: 100, people: 1, at, ...more };
}

export function signalRows(station: string, inputs: number, outputs: number): Signal[] {
  const row = (direction: 'in' | 'out', k: number): Signal => ({
    station,
    signal: `${direction}_${k}`,
    direction,
    kind: 'digital',
    volts: 24,
    milliamps: direction === 'in' ? 3 : 100,
    normally: 'open',
    cableM: 10,
    cableMm2: 0.5,
    safety: false,
    at: { file: 'signals.csv', line: k + 2 },
  });
  return [
    ...Array.from({ length: inputs }, (_, k) => row('in', k)),
    ...Array.from({ length: outputs }, (_, k) => row('out', k)),
  ];
}

export function costCell(
  items: Readonly<Record<string, ItemValue>>,
  changeovers: readonly Changeover[],
  signals: readonly Signal[] = [],
): Cell {
  return {
    stations: changeovers.map((row) => ({
      name: row.station,
      kind: 'machine',
      xM: null,
      yM: null,
      capacityParts: 1,
      readyS: 0,
      closeS: 0,
      costPerH: 0,
      mtbfH: null,
      mttrMin: null,
    })),
    routes: [],
    robot: {
      hands: 1,
      indexS: 0,
      speedMS: null,
      accelMS2: null,
      travelS: 4,
      attendedSpeedPct: 100,
      costPerH: 0,
    },
    travel: [],
    parts: [],
    shifts: [],
    stops: [],
    variation: [],
    setups: [],
    jobs: [],
    changeovers,
    signals,
    costs: costRows(items),
  };
}

/** The least that a case needs, with plain figures; the harness is always elsewhere, so that it is moved each time. */
export const PLAIN_ITEMS: Readonly<Record<string, ItemValue>> = {
  labour_per_h: 36,
  box_price: 1500,
  harness_connectors: 4,
  harness_min_per_connector: 3,
  horizon_years: 5,
  discount_pct: 8,
  box_plug_min: 2,
  box_check_min: 1,
  harness_elsewhere_per_year: 1e6,
};

/** A third way of connecting, with all of its items. */
export const COUPLING: Readonly<Record<string, ItemValue>> = {
  'coupling.price': [450, 400, 520],
  'coupling.once_price': 700,
  'coupling.fit_h': 1.5,
  'coupling.fit_stand_h': 2,
  'coupling.fit_min_per_signal': 1,
  'coupling.upkeep_per_year': 9,
  'coupling.salvage': 40,
  'coupling.plug_min': 1.2,
  'coupling.check_min': 1,
  'coupling.check_min_per_signal': 0.1,
  'coupling.identity_check_min': 0.4,
  'coupling.first_part_min': 2,
  'coupling.fault_chance': 0.01,
  'coupling.worn_price': 60,
  'coupling.matings': 100,
};

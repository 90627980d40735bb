// Every figure of the audit trail is worked out again from its own formula and the inputs that it names.
import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { costCase } from '../../../../src/core/cost/cost-case.js';
import type { AuditEntry } from '../../../../src/core/cost/result.js';
import type { Cell } from '../../../../src/core/model/cell.js';
import { bestSchedule } from '../../../../src/core/schedule/best-schedule.js';
import { standingHours } from '../../../../src/core/standing/standing-hours.js';
import { readCell } from '../../../../src/tables/read-cell.js';
import { atSize } from '../../../support/size.js';
import { COUPLING, changeoverRow, costCell, PLAIN_ITEMS, signalRows } from '../support/cost-cell.js';
import { evaluateFormula } from './evaluate-formula.js';

const DATA = new URL('../../../../data/', import.meta.url);

function cellOf(folder: string): Cell {
  const path = new URL(`${folder}/`, DATA);
  const files = readdirSync(path).filter((file) => file.endsWith('.csv') && !/^(log|readings)/.test(file));
  return readCell(Object.fromEntries(files.map((file) => [file, readFileSync(new URL(file, path), 'utf8')])));
}

const folders = readdirSync(DATA).filter((folder) => {
  const files = readdirSync(new URL(`${folder}/`, DATA));
  return files.includes('costs.csv') && files.includes('changeovers.csv');
});

function entriesOf(cell: Cell, facts = true): readonly AuditEntry[] {
  const schedule = facts ? bestSchedule(cell, { improvements: false, nodeLimit: 2000 }) : null;
  const hours = schedule !== null && 'order' in schedule ? standingHours(cell, schedule) : null;
  const outcome = costCase(cell, hours, { trials: 50, turns: false });
  if (outcome.status !== 'found') throw new Error(outcome.recommendation);
  return outcome.audit;
}

/** @returns how many figures were worked out again */
function workOut(entries: readonly AuditEntry[]): number {
  const figures = new Map(entries.map((entry) => [entry.result, entry]));
  let count = 0;
  for (const { result, value, how, formula, inputs } of entries) {
    for (const { item, from, value: given } of inputs)
      if (from !== undefined) expect(figures.get(from)?.value, `${item} in ${result}`).toBe(given);
    if (how !== 'formula') {
      expect(formula.startsWith(`${how}: `), result).toBe(true);
      continue;
    }
    const again = evaluateFormula(formula, inputs);
    const size = Math.max(1, Math.abs(value!));
    expect(Math.abs(again - value!) / size, `${result} = ${formula}: ${again} for ${value}`).toBeLessThan(
      1e-9,
    );
    count++;
  }
  return count;
}

describe('the audit trail', () => {
  it('there are folders with a case', () => {
    expect(folders).toContain('demo');
    expect(folders.length).toBeGreaterThan(2);
  });
  it.each(atSize(['starter'], ['starter', 'demo'], folders))(
    'data/%s: every figure comes out of its formula',
    (folder) => {
      expect(workOut(entriesOf(cellOf(folder)))).toBeGreaterThan(60);
    },
  );
  it('with everything that a case can have', () => {
    const items = {
      ...PLAIN_ITEMS,
      harness_elsewhere_per_year: 12,
      tax_pct: 28,
      inflation_pct: 3,
      depreciation: 'macrs-5',
      finance_pct: 5,
      connector_price: 90,
      connector_matings: 40,
      box_plug_price: 30,
      box_plug_matings: 70,
      box_move_min: 4,
      box_inputs: 8,
      box_outputs: 8,
      box_amps: 4,
      box_mount_h: 2,
      install_learning_pct: 80,
      engineering_price: 300,
      risk_assessment_price: 200,
      programming_h: 1,
      commissioning_h: 2,
      contingency_pct: 10,
      box_fit_stand_h: 3,
      harness_price: 500,
      box_salvage: 100,
      contribution_per_machine_h: 45,
      box_price_breaks: '3:1200;6:900',
      box_price_pct: 110,
      labour_per_h: [36, 30, 45],
    } as const;
    const rows = [
      changeoverRow('a', 90),
      changeoverRow('b', 70, { people: 2, internalPct: 80 }),
      changeoverRow('c', 4),
    ];
    const cell = costCell(items, rows, [...signalRows('a', 10, 6), ...signalRows('b', 4, 4)]);
    expect(workOut(entriesOf(cell, false))).toBeGreaterThan(200);
    expect(
      workOut(entriesOf(costCell({ ...items, discount_pct: 0, tax_pct: 0 }, rows), false)),
    ).toBeGreaterThan(100);
  });
  it.each(['before-tax', 'after-tax'])('with a real discount rate that is meant %s', (discount_tax) => {
    const meant = { discount_tax, discount_prices: 'real', inflation_pct: 3, tax_pct: 28 };
    const cell = costCell({ ...PLAIN_ITEMS, ...meant }, [changeoverRow('a', 90), changeoverRow('b', 70)]);
    expect(workOut(entriesOf(cell, false))).toBeGreaterThan(60);
  });
  it('with a named connection beside harness and box', () => {
    const cell = costCell({ ...PLAIN_ITEMS, ...COUPLING, tax_pct: 28, engineering_price: 200 }, [
      changeoverRow('a', 90),
      changeoverRow('b', 70),
    ]);
    const entries = entriesOf(cell, false);
    expect(entries.map(({ result }) => result)).toContain('coupling on every machine: net present value');
    expect(workOut(entries)).toBeGreaterThan(100);
  });
  it('the evaluator refuses what it is not told', () => {
    expect(() => evaluateFormula('a x b', [{ item: 'a', value: 2 }])).toThrow('nothing known');
    expect(evaluateFormula('2 + a x 3 ^ 2', [{ item: 'a', value: 2 }])).toBe(20);
  });
});

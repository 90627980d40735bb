// One map of studies: what `report` shows and what a sweep picks is what the study's own command prints with --json.
import { beforeAll, expect, test } from 'vitest';
import { studies } from '../../src/core/studies/studies.js';
import { cellFigures } from '../../src/core/sweep/cell-figures.js';
import { pickFigure } from '../../src/core/sweep/result-figure.js';
import { highsSolver } from '../../src/solver/highs-solver.js';
import { inspectTables } from '../../src/tables/inspect-tables.js';
import { quickTables } from '../support/quick-shop.js';
import { shopJson, shopReport } from '../support/shop-answers.js';
import { isDeep } from '../support/size.js';
import type { Json } from './json-of.js';

let report: Json;

beforeAll(async () => {
  ({ result: report } = await shopReport());
});

/** Study, its command, its place in the report (null = not there), a figure. */
const each = [
  ['schedule', 'schedule', 'schedule', 'periodS'],
  ['shifts', 'shifts', 'shifts', 'patterns.day.partsPerShift.total'],
  ['size', 'size', 'size', 'rows.2.simulated.partsPerShift.mean'],
  ['simulate', 'simulate', 'simulate', 'partsPerShift.total.mean'],
  ['mix', 'mix', 'mix', 'patterns.day.valuePerWeek'],
  ['costcase', 'costcase', 'costcase', 'increment.npv'],
  ['io', 'io', 'points', 'stations.mill_1.boxes'],
  ['jobs', 'jobs', 'jobs', 'plans.day.setupMin'],
  ['setups', 'setups', null, 'stations.mill_1.minutes'],
] as const;

test('every study but the simulated patterns is here', () => {
  expect(each.map(([study]) => study).sort()).toEqual(
    Object.keys(studies)
      .filter((name) => name !== 'patterns')
      .sort(),
  );
});

/** Times that the work took are no figures. */
const plain = (value: Json): Json =>
  JSON.parse(JSON.stringify(value), (key, v) => (/^(seconds|eventsPerSecond)$/.test(key) ? 0 : v));

// The simulated ones take longest; their figures in a report are held in tests/relations/good-parts.test.ts, too.
test.each(each.filter(([study]) => isDeep || !['size', 'simulate'].includes(study)))(
  '%s',
  async (study, command, inReport, path) => {
    const printed = plain(await shopJson(command));
    if (inReport !== null)
      for (const [field, value] of Object.entries(plain(report[inReport])))
        if (field !== 'simulated' && field in printed) expect(value, field).toEqual(printed[field]);
    const { cell } = inspectTables(quickTables());
    const { picks } = await cellFigures(cell!, [`${study}.${path}`], {
      nodes: null,
      mixedSolver: highsSolver,
    });
    expect(picks[0]).toMatchObject({ ok: true, value: expect.any(Number) });
    expect(picks[0]).toEqual(pickFigure({ [study]: printed }, `${study}.${path}`));
  },
);

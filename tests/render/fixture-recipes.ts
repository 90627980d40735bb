// How each stored result comes about: `npm run fixtures` works them out anew and writes them.
import { explain } from '../../src/cli/commands/simulate.js';
import type { Cell } from '../../src/core/model/cell.js';
import { bestSchedule } from '../../src/core/schedule/best-schedule.js';
import type { ScheduleFound } from '../../src/core/schedule/result.js';
import { shiftPatterns } from '../../src/core/shifts/shift-patterns.js';
import { sizeCell } from '../../src/core/size/size-cell.js';
import { sizeSearch } from '../../src/core/size/size-search.js';
import { sizeStudy } from '../../src/core/size/size-study.js';
import { runStudy } from '../../src/core/studies/studies.js';
import { highsSolver } from '../../src/solver/highs-solver.js';
import { inspectTables } from '../../src/tables/inspect-tables.js';
import { applySettings } from '../../src/tables/overrides/apply-settings.js';
import { plainLayer } from '../../src/tables/overrides/layered-tables.js';
import { data } from '../cli/run-in.js';
import { tablesOf } from '../relations/folders.js';
import type { StoredResults } from './stored-results.js';

const context = { mixedSolver: highsSolver };
/** The robot carries 34 s a part, so that seven or eight machines are the question. */
const ALIKE = { cycleS: 240, loadS: 12, unloadS: 10, travelS: 4, machineCostPerH: 9 };

type Recipes = { readonly [Name in keyof StoredResults]: () => Promise<StoredResults[Name]> };

export const recipes: Recipes = {
  demo: async () => scheduleOf('demo'),
  'wash-line': async () => scheduleOf('wash-line'),
  'two-hands': async () => scheduleOf('two-hands'),
  // The wash line with machines that are done before the robot is back.
  'robot-bound': async () =>
    scheduleOf('wash-line', ...[2, 3, 4, 5].map((s) => `routes.sleeve.${s}.cycle_s=4`)),
  'no-schedule': async () => {
    const outcome = bestSchedule(cellOf('no-schedule'));
    if (outcome.status !== 'infeasible') throw new Error(`no-schedule is ${outcome.status}`);
    return outcome;
  },
  'demo-shifts': async () => shiftPatterns(cellOf('demo'), scheduleOf('demo'), { program: 'best' }),
  'figures-size': async () =>
    sizeCell(
      {
        identical: { ...ALIKE, robotCostPerH: 30, contributionPerPart: 3 },
        maxMachines: 8,
      },
      sizeSearch(null),
    ),
  'size-stops': () =>
    sizeStudy(
      {
        identical: { ...ALIKE, contributionPerPart: 1, mtbfH: 5, mttrMin: 8 },
        maxMachines: 9,
      },
      sizeSearch(null),
      {},
      {},
    ),
  'demo-simulation': async () => {
    const [cell, schedule] = [cellOf('demo'), scheduleOf('demo')];
    const pattern = 'one shift';
    const study = await runStudy('simulate', { cell, schedule }, { pattern }, context);
    return { study, pattern, explanation: explain(cell) };
  },
  // As after Ctrl-C: one run of the two that were asked for, and nothing yet of what costs further runs.
  'one-run-simulation': async () => {
    const asked = { replications: 1, program: 'first', against: [] } as const;
    const study = await runStudy('simulate', { cell: cellOf('two-hands'), schedule: null }, asked, context);
    return {
      study: {
        ...study,
        result: {
          ...study.result,
          complete: false,
          ceilingPerShift: null,
          ceilingIsMaximum: false,
          losses: [],
        },
      },
      pattern: null,
      explanation: null,
    };
  },
  'demo-cost': () => costCaseOf(),
  'taxed-cost': () =>
    costCaseOf('costs.tax_pct.value=30', 'costs.depreciation.value=macrs-3', 'costs.budget.value=20000'),
  'harness-cost': () =>
    costCaseOf(
      'costs.box_price.value=99000',
      'costs.box_price.high=99000',
      'costs.box_price_breaks.value=4:98000',
    ),
};

function cellOf(name: string, ...changes: readonly string[]): Cell {
  const { tables, complaints } = applySettings(plainLayer(tablesOf(data(name))), changes);
  const { cell } = inspectTables(tables);
  if (cell === null || complaints.length > 0) throw new Error(`${name} does not take ${changes.join(', ')}`);
  return cell;
}

const searched = new Map<string, ScheduleFound>();

/** Searched once, whoever asks. */
function scheduleOf(name: string, ...changes: readonly string[]): ScheduleFound {
  const key = [name, ...changes].join('\n');
  const outcome = searched.get(key) ?? bestSchedule(cellOf(name, ...changes), { whatIf: true });
  if (!('order' in outcome)) throw new Error(`${name} is ${outcome.status}`);
  searched.set(key, outcome);
  return outcome;
}

async function costCaseOf(...changes: readonly string[]): Promise<StoredResults['demo-cost']> {
  const cell = cellOf('demo', ...changes);
  const outcome = await runStudy('costcase', { cell, schedule: scheduleOf('demo') }, {}, context);
  if (outcome.status !== 'found') throw new Error(outcome.recommendation);
  return outcome;
}

/** `shifts`: parts per shift and week of every shift pattern, with the losses by cause. */

import { Option } from 'commander';
import { type ZonedWeek, zonedWeek } from '../../core/calendar/zoned-week.js';
import type { PatternComparison } from '../../core/compare/compare-patterns.js';
import type { Cell } from '../../core/model/cell.js';
import { currencyOf } from '../../core/model/cost-value.js';
import type { ScheduleFound } from '../../core/schedule/result.js';
import type { ShiftYieldOptions } from '../../core/shifts/shift-yield.js';
import { runStudy, studies } from '../../core/studies/studies.js';
import { SHIFT_TABLES, shiftTables } from '../../render/result-tables/shift-tables.js';
import { renderShifts, shiftSentences } from '../../render/shifts.js';
import { WAY_CHOICES, wayOption, waysAsked } from '../asked-ways.js';
import { cellAnswer, withHands } from '../cell-answer.js';
import { type CommandBody, numberOf, numbersOf, type OptionValues } from '../command-spec.js';
import { EXIT } from '../exit-codes.js';
import { ON_THIS_THREAD, onPool } from '../on-pool.js';
import { handsOption, numberOption, seedOption, workersOption } from '../option-values.js';
import { programOf, programOption } from '../program-option.js';
import { withProgress } from '../progress.js';
import { searched, withSchedule } from '../schedule-outcome.js';
import { UsageError } from '../usage-error.js';

export const shiftsCommand: CommandBody = {
  argument: 'folder that holds the tables of the cell',
  options: () => [
    handsOption(),
    programOption(),
    new Option(
      '--week <date>',
      'run a real week, the one with this day (such as 2026-10-19), clock changes included',
    ),
    new Option('--zone <name>', 'time zone of --week, such as Europe/Berlin'),
    wayOption(WAY_CHOICES),
    new Option(
      '--run-out',
      'run the cell empty before it closes, as it is done anyway where a longest wait is set; default: parts stay inside',
    ),
    new Option('--simulate', 'simulate every pattern too, with the differences on the same random numbers'),
    numberOption('--replications <number>', 'simulated weeks of each pattern; default 20', {
      words: 'weeks',
      min: 2,
      max: 10_000,
      whole: true,
    }),
    seedOption(),
    workersOption(),
  ],
  tables: SHIFT_TABLES,
  examples: [
    'shifts my-cell',
    'shifts my-cell --connection case',
    'shifts my-cell --simulate --replications 5',
    'shifts my-cell --week 2026-10-19 --zone Europe/Berlin',
  ],
  run: (folder, values, io) =>
    cellAnswer(folder!, io, async (open) => {
      const { cell: asked, assumptions } = withHands(open.cell, numberOf(values, 'hands'));
      const week = realWeek(asked, values);
      const cell = week === null ? asked : { ...asked, shifts: week.shifts };
      const options: ShiftYieldOptions = {
        program: programOf(values),
        ...waysAsked(cell, values, io),
        ...(values.runOut === true ? { atEnd: 'run out' } : {}),
      };
      const outcome = searched(cell, io);
      const simulated =
        'order' in outcome && values.simulate === true
          ? await simulate(cell, outcome, options, values)
          : null;
      return withSchedule(outcome, open, async (schedule) => {
        const result = await withProgress(io, 'Running the shifts', () =>
          runStudy('shifts', { cell, schedule }, options, ON_THIS_THREAD),
        );
        const { warnings, performance } = result;
        const shared = new Set(result.patterns.flatMap((p) => p.assumptions));
        return {
          exit: EXIT.done,
          fields: {
            ...studies.shifts.fields(result),
            ...weekFields(week),
            ...(simulated === null ? {} : { simulated, differences: simulated.differences }),
          },
          text: (style) => renderShifts(result, { performance, simulated }, currencyOf(cell), style),
          tables: () => ({
            sentences: shiftSentences(result),
            tables: shiftTables(result, performance, simulated),
          }),
          assumptions: [...assumptions, ...weekNotes(week), ...schedule.assumptions, ...shared],
          warnings: [...schedule.warnings, ...warnings],
        };
      });
    }),
};

/** @returns null where no shifts are given */
async function simulate(
  cell: Cell,
  schedule: ScheduleFound,
  floor: ShiftYieldOptions,
  values: OptionValues,
): Promise<PatternComparison | null> {
  if (cell.shifts.length === 0) return null;
  const options = { ...floor, ...numbersOf(values, { replications: 'replications', seed: 'seed' }) };
  return onPool(values, (context) => runStudy('patterns', { cell, schedule }, options, context));
}

/** @throws UsageError for a date without a zone or the other way round, or names that are not known */
function realWeek(cell: Cell, values: OptionValues): ZonedWeek | null {
  const { week, zone } = values as { week?: string; zone?: string };
  if (week === undefined && zone === undefined) return null;
  if (week === undefined || zone === undefined)
    throw new UsageError('`--week` and `--zone` go together: `--week 2026-10-19 --zone Europe/Berlin`.');
  try {
    return zonedWeek(cell.shifts, week, zone);
  } catch (error) {
    if (error instanceof RangeError) throw new UsageError(`For \`--week\` and \`--zone\`: ${error.message}.`);
    throw error;
  }
}

function weekFields(week: ZonedWeek | null): object {
  if (week === null) return {};
  const { monday, zone, hours, changes } = week;
  return { week: { monday, zone, hours, changes } };
}

function weekNotes(week: ZonedWeek | null): string[] {
  if (week === null) return [];
  const changes = week.changes.map(
    (c) => `${c.pattern}, ${c.shift} of ${c.day} has ${c.passedH} hours in place of ${c.clockH}`,
  );
  const said = changes.length === 0 ? 'no shift is shorter or longer' : changes.join('; ');
  return [
    `The week from Monday ${week.monday} in ${week.zone} has ${week.hours} hours: ${said}. It is run as if every week were so; hours worked are paid.`,
  ];
}

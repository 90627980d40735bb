/** How many machines, as text: the answer, the table, the closed forms beside it, how the answer moves. */
import type { ClosedForm } from '../core/size/closed-form.js';
import type { SizeRow } from '../core/size/size-row.js';
import { countText, numberText } from './numbers.js';
import { paragraph } from './paragraph.js';
import {
  breakPointTable,
  closedFormTable,
  type ShownSize,
  simulatedTable,
  sizeSensitivityTable,
  sizeTable,
} from './result-tables/size-tables.js';
import { pieces, printer } from './text-section.js';
import type { TextStyle } from './text-style.js';

export function renderSize(result: ShownSize, currency: string, style: TextStyle): string {
  const { said, section } = printer(style);
  const { closedForm, sensitivity, breakPoints } = result;
  const note = (text: string) => paragraph(text, style.columns);
  if (result.recommended === null)
    return 'No feasible sequence for any number of machines. Run `schedule` for the reason.\n';
  const answer = [
    said(...sizeSentences(result, style.full === true)),
    section(
      `Machine by machine, constant times (${currency === '' ? '' : `money in ${currency}; `}* recommended)`,
      sizeTable(result),
      style.full ? note(sizeNotes(result).join(' ')) : null,
    ),
  ];
  if (!style.full) return pieces(...answer);
  return pieces(
    ...answer,
    section('With downtime and variation', simulatedTable(result), note(simulatedNote(result))),
    closedForm !== null &&
      section(
        'Parts an hour by the closed forms',
        closedFormTable(closedForm, result.rows),
        note(closedFormNote(closedForm)),
      ),
    sensitivity.length > 0 && section('Sensitivity to times (±10%)', sizeSensitivityTable(result)),
    breakPoints.length > 0 &&
      section('Where the answer changes', breakPointTable(result), note(breakPointNote(result))),
  );
}

/** What the recommended number makes, why it is that one, and how close the next is. */
export function sizeSentences(result: ShownSize, full = true): string[] {
  const { recommended, rows, owned } = result;
  if (recommended === null)
    return ['No feasible sequence for any number of machines. Run `schedule` for the reason.'];
  const row = rows.find((r) => r.machines === recommended.machines)!;
  const wait =
    recommended.largestUnderWait === null
      ? 'Even with the fewest machines, waiting for the busy robot exceeds the highest acceptable share.'
      : `Up to ${countText(recommended.largestUnderWait, 'machine')}, waiting for the busy robot stays within the highest acceptable share.`;
  return [
    `${otherChoice(result, row)}${countText(row.machines, 'machine')}: ${numberText(row.partsPerH, 1)} parts an hour, robot busy ${numberText(row.robotUtilizationPct)}%, machines working ${numberText(row.machineUtilizationPct)}% and blocked ${numberText(row.waitRobotPct, 1)}% of the time (${numberText(row.waitBusyPct, 1)}% by the busy robot).`,
    recommended.reason,
    ...(recommended.nextBest && full ? [recommended.nextBest.text] : []),
    ...(recommended.measure === 'waiting for the robot' || owned > 0 || !full ? [] : [wait]),
    ...(result.withStops ? [result.withStops.text] : []),
    ...(result.tipping ? [result.tipping] : []),
  ];
}

/** What comes first where downtime and variation change the answer. */
function otherChoice({ withStops, recommended }: ShownSize, { machines }: SizeRow): string {
  if (!withStops?.differs) return '';
  const doubt = withStops.clear
    ? ''
    : ` (no clear difference in ${recommended?.measure === 'cost per part' ? 'cost per part' : 'margin'})`;
  return `${countText(machines, 'machine')} at constant times, ${withStops.recommended.machines} with downtime and variation${doubt}. `;
}

/** What stands under the table of machines. */
export function sizeNotes({ way, rows }: ShownSize): string[] {
  const added = way === 'from a list' ? [`Added in this order: ${orderAdded(rows).join(', ')}.`] : [];
  const parts = new Set(rows.map((row) => Object.keys(row.partsPerHByPart).join()));
  const unlike =
    parts.size > 1
      ? ['Rows that make different parts are not compared by parts an hour; compare margin.']
      : [];
  return ['* recommended.', ...added, ...unlike];
}

/** What stands under the simulated rows, or why there are none. */
export function simulatedNote({ rows, simulation }: ShownSize): string {
  if (simulation === undefined) return 'The rows were not simulated.';
  if (simulation.program === null) return simulation.reason ?? '';
  const runs = rows.find((row) => row.simulated !== undefined)?.simulated?.replications ?? 0;
  return `* recommended with downtime and variation; ±: 95% confidence. ${countText(runs, 'run')} of each row, robot program \`${simulation.program}\`, seed ${simulation.seed}.`;
}

function orderAdded(rows: readonly SizeRow[]): string[] {
  let before: readonly string[] = [];
  return rows.map((row) => {
    const added = row.machineNames.filter((name) => !before.includes(name));
    before = row.machineNames;
    return added.join(' with ');
  });
}

/** What the closed forms say in a sentence. */
export function closedFormNote(form: ClosedForm): string {
  return `By synchronous servicing, (load + run) / (load + walk), one robot keeps up with ${numberText(form.synchronous.idealMachines, 2)} machines. The closed forms are a cross-check: with random times the true rate lies below that of the best sequence.`;
}

/** Between which limits the inputs were tried, and how sure the changes are. */
export function breakPointNote({ breakPoints, recommended }: ShownSize): string {
  const [first] = breakPoints;
  if (first === undefined || recommended === null) return '';
  const sides = breakPoints.flatMap(({ below, above }) => [below, above]);
  const unsure = sides.some((side) => side?.proven === false)
    ? ' About (~): a search on one side came to its limit, and a better order may move the value.'
    : '';
  return `Each input alone is tried from ${first.fromPct}% to +${first.toPct}% of what it is; - means no change in that range. Every change is checked by new searches on both sides of it.${unsure}`;
}

/** One figure against one number of the tables, point by point as the command `sweep` works it out. */
import type { Figure } from '../../core/sweep/result-figure.js';
import { sweepChart } from '../../render/charts/sweep-chart.js';
import { type Column, figures, readTable } from '../../render/columns.js';
import { complaintLines } from '../../render/complaint-lines.js';
import { type Block, note, said } from '../../render/document/blocks.js';
import { tableBlock } from '../../render/document/table-block.js';
import { figureName } from '../../render/figure-names.js';
import { numberText } from '../../render/numbers.js';
import { plainLayer } from '../../tables/overrides/layered-tables.js';
import { type PointResult, pointFigures } from '../../tables/overrides/point-figures.js';
import { tableMemory } from '../../tables/table-memory.js';
import { CONTEXT } from './answers.js';
import type { SweepWanted } from './messages.js';
import type { Worked } from './worked.js';

/** @param nodes most nodes of the search at each point; null = as many as the command of the figure takes */
export async function sweepAnswer(
  wanted: SweepWanted,
  nodes: number | null,
  progress: (done: number, of: number) => void,
): Promise<Worked> {
  const { tables, path, values, figure } = wanted;
  const asked = { layers: plainLayer(tables), settings: [], paths: [path], figures: [figure], nodes };
  const memory = tableMemory();
  const rows: PointResult[] = [];
  for (const [k, value] of values.entries()) {
    rows.push(await pointFigures(asked, { number: k + 1, values: [value] }, memory, CONTEXT.mixedSolver));
    progress(k + 1, values.length);
  }
  const fields = {
    sweeps: [{ path, values }],
    figures: [figure],
    points: values.length,
    rows: rows.map(({ number, values: at, status, figures }) => ({
      point: number,
      values: at,
      status,
      figures,
    })),
  };
  return { result: { fields, assumptions: [], warnings: [] }, blocks: blocksOf(wanted, rows) };
}

function blocksOf({ path, unit, figure, now }: SweepWanted, rows: readonly PointResult[]): Block[] {
  const points = rows.map((row) => ({ x: Number(row.values[0]), y: numberOr(row.figures[0] ?? null) }));
  const known = points.flatMap(({ x, y }) => (y === null ? [] : [{ x, y }]));
  const refused = rows.find((row) => row.complaints.length > 0);
  const remark: Block[] =
    refused === undefined
      ? []
      : [note(`No figure at ${refused.values[0]}: ${complaintLines(refused.complaints).join(' ')}`)];
  if (known.length === 0)
    return [said(`${figureName(figure)} has no number at any of these values.`), ...remark];
  const input = unit === '' ? path : `${path}, ${unit}`;
  const by = (sign: number) => known.reduce((a, b) => (sign * b.y > sign * a.y ? b : a));
  const [most, least] = [by(1), by(-1)];
  const text = (value: number): string => numberText(value, Number.isInteger(value) ? 0 : 2);
  const title =
    most.y === least.y
      ? `${figureName(figure)}: ${text(most.y)} at all values`
      : `${figureName(figure)}: highest ${text(most.y)} at ${most.x}, lowest ${text(least.y)} at ${least.x}`;
  const columns: Column<(typeof points)[number]>[] = [
    figures(path, input, 0, ({ x }) => x, { text: ({ x }) => String(x) }),
    figures(figure, figureName(figure), 2, ({ y }) => y, { text: ({ y }) => text(y!) }),
  ];
  const data = tableBlock('The points', readTable(columns, points));
  const texts = {
    title,
    description: `${figureName(figure)} against ${input}, ${points.length} points.`,
    note: 'The dashed line is the value of the table; all else is as the tables have it.',
    data,
  };
  return [sweepChart({ input, figure: figureName(figure), points, now }, texts), ...remark];
}

function numberOr(figure: Figure): number | null {
  return typeof figure === 'number' ? figure : null;
}

// Change detectors for the text of a simulation, drawn from stored results; refresh with -u and read what changed.
import { describe, expect, test } from 'vitest';
import { renderSimulation } from '../../src/render/simulate.js';
import { plainStyle } from '../../src/render/text-style.js';
import { stored } from './stored-results.js';

/** Every table and the chart. */
const whole = { ...plainStyle, full: true, chart: true };

const golden = (text: string, name: string): Promise<void> =>
  expect(text).toMatchFileSnapshot(`golden/${name}`);

describe('a simulation', () => {
  test('all rules, stops, shifts, closed forms', async () => {
    const view = stored('demo-simulation');
    await golden(renderSimulation(view, whole), 'simulation-demo.txt');
  });

  test('stopped after one run: incomplete, no intervals', async () => {
    const view = stored('one-run-simulation');
    await golden(renderSimulation(view, whole), 'simulation-one-run.txt');
  });

  test('a cell that locks up', () => {
    const view = stored('one-run-simulation');
    const result = { ...view.study.result, deadlock: 'A ring of waits: a waits for room at b.' };
    const text = renderSimulation({ ...view, study: { ...view.study, result } }, whole);
    expect(text).toBe(`Under the robot program \`first\` the cell locks up: nothing can move any more.
A ring of waits: a waits for room at b.
Try another program with --dispatch, or change the cell: a place to set parts
down, or an operator where one is waited for.
`);
  });
});

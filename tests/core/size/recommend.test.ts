// What is advised of rows whose figures are given: what the reader is told of more machines that would earn more.
import { expect, it } from 'vitest';
import { recommendMachines } from '../../../src/core/size/recommend.js';
import type { SizeRow } from '../../../src/core/size/size-row.js';

const names = ['mill', 'saw', 'mill#2', 'mill#3', 'saw#2'];
/** Rows from two machines up: margin an hour and waiting for the busy robot in %. */
function rows(figures: readonly (readonly [number, number])[]): SizeRow[] {
  return figures.map(([contributionPerH, waitBusyPct], i) => ({
    machines: i + 2,
    machinesUsed: i + 2,
    machineNames: names.slice(0, i + 2),
    partsPerH: 20 + i,
    partsPerHByPart: { cap: 20 + i },
    robotUtilizationPct: 50,
    limitedBy: ['mill'],
    contributionPerH,
    costPerPart: 1,
    waitBusyPct,
    waitRobotPct: waitBusyPct,
  })) as unknown as SizeRow[];
}
const terms = { maxWaitPct: 5, owned: 2, currency: 'EUR' };
const START =
  'One robot serves both machines: 20.0 parts an hour, robot busy 50%. The limit is mill, not the robot.';

it('more machines that earn more and wait too long are named with both figures', () => {
  // Three are no better; four earn more but are refused.
  const { machines, reason } = recommendMachines(
    rows([
      [154.9, 1],
      [150, 3],
      [227.73, 6.9],
    ]),
    terms,
  );
  expect(machines).toBe(2);
  expect(reason).toBe(
    `${START} With one more like mill the margin would be no better. With 2 more like mill the margin would be higher, 227.73 EUR an hour, but the machines would wait for the busy robot 6.9% of the time, more than the highest acceptable 5%.`,
  );
});

it('the next machine, where it is the one that waits too long, is named once', () => {
  expect(
    recommendMachines(
      rows([
        [154.9, 1],
        [160, 6],
      ]),
      terms,
    ).reason,
  ).toBe(
    `${START} With one more like mill the margin would be higher, 160.00 EUR an hour, but the machines would wait for the busy robot 6.0% of the time, more than the highest acceptable 5%.`,
  );
});

it('beside machines that there is room for as well', () => {
  expect(
    recommendMachines(
      rows([
        [100, 1],
        [120, 2],
        [130, 9],
      ]),
      terms,
    ).reason,
  ).toBe(
    `${START} Room for one more like mill: 21.0 parts an hour, margin 120.00 EUR an hour instead of 100.00. With 2 more like mill the margin would be higher, 130.00 EUR an hour, but the machines would wait for the busy robot 9.0% of the time, more than the highest acceptable 5%.`,
  );
});

it('nothing is said of more machines that wait too long and earn no more', () => {
  expect(
    recommendMachines(
      rows([
        [100, 1],
        [90, 2],
        [95, 9],
      ]),
      terms,
    ).reason,
  ).toBe(`${START} With one more like mill the margin would be no better.`);
  expect(
    recommendMachines(
      rows([
        [100, 1],
        [90, 7],
      ]),
      terms,
    ).reason,
  ).toBe(`${START} With one more like mill the machines would wait for the busy robot 7.0% of the time.`);
});

/** What a cell is, in a few lines: for `check`. */

import type { Cell, Station } from '../core/model/cell.js';
import { firstFew } from '../core/model/first-few.js';
import { listText } from '../core/model/list-text.js';
import { countText } from './numbers.js';
import { paragraph } from './paragraph.js';
import type { TextStyle } from './text-style.js';
import { visibleText } from './visible-text.js';

const NAMES_SHOWN = 12;

/** @param files names of the tables that were read */
export function checkedCellText(cell: Cell, files: readonly string[], style: TextStyle): string {
  const hands = cell.robot.hands === 1 ? 'a single gripper' : 'a dual gripper';
  const lines = [
    `The tables are sound: ${listText(files)}.`,
    `One robot with ${hands}; ${listText(kindTexts(cell))}.`,
    `Parts: ${firstNames(cell.routes.map((route) => `${route.part} (${countText(route.steps.length - 2, 'step')} between infeed and outfeed)`))}.`,
    cell.shifts.length === 0
      ? 'No shifts are given, so there are no parts per shift.'
      : `Shift patterns: ${firstNames([...new Set(cell.shifts.map((shift) => shift.pattern))])}.`,
    cell.changeovers.length === 0 || cell.costs.length === 0
      ? 'No cost case can be made: it needs changeovers.csv and costs.csv.'
      : `Changeovers of ${countText(cell.changeovers.length, 'machine')} and ${countText(cell.costs.length, 'cost item')} are given.`,
  ];
  return `${lines.map((line) => paragraph(visibleText(line), style.columns)).join('\n')}\n`;
}

function kindTexts(cell: Cell): string[] {
  const kinds: Station['kind'][] = ['infeed', 'machine', 'bench', 'held', 'buffer', 'outfeed'];
  return kinds.flatMap((kind) => {
    const found = cell.stations.filter((station) => station.kind === kind);
    if (found.length === 0) return [];
    const word = kind === 'held' ? 'held station' : kind;
    const many = kind === 'bench' ? 'benches' : `${word}s`;
    return [`${countText(found.length, word, many)} (${firstNames(found.map((s) => s.name))})`];
  });
}

const firstNames = (list: readonly string[]): string => firstFew(list, NAMES_SHOWN);

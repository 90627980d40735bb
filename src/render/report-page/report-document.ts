/** The report of a cell as a document: the answer, then question by question what carries it, then what it rests on. */
import type { Document } from '../document/blocks.js';
import { countText } from '../numbers.js';
import { answerBlocks } from './answer.js';
import { chanceBlocks } from './chance-blocks.js';
import { assumptionBlock, cautionBlocks, sourceBlock, warningBlocks } from './closing-blocks.js';
import { inputBlock } from './input-blocks.js';
import { jobBlocks } from './job-blocks.js';
import { layoutBlocks } from './layout-blocks.js';
import { machineBlocks } from './machine-blocks.js';
import { memoBlocks } from './memo-blocks.js';
import { methodBlock } from './method-blocks.js';
import { mixBlocks } from './mix-blocks.js';
import { moneyBlocks } from './money-blocks.js';
import { pointsBlocks } from './points-blocks.js';
import type { ReportView } from './report-view.js';
import { roundBlocks } from './round-blocks.js';
import { weekBlocks } from './week-blocks.js';

export function reportDocument(view: ReportView): Document {
  return {
    title: `One robot, several machines: ${view.facts.name}`,
    subtitle: subtitle(view),
    contents: true,
    blocks: [
      ...memoBlocks(view),
      ...warningBlocks(view),
      ...answerBlocks(view),
      ...roundBlocks(view),
      ...machineBlocks(view),
      ...weekBlocks(view),
      ...chanceBlocks(view),
      ...mixBlocks(view),
      ...jobBlocks(view),
      ...layoutBlocks(view),
      ...moneyBlocks(view),
      ...pointsBlocks(view),
      ...cautionBlocks(view),
      inputBlock(view),
      assumptionBlock(view),
      methodBlock(view),
      sourceBlock(view),
    ],
  };
}

function subtitle({ results: { cell }, facts }: ReportView): string {
  const machines = cell.stations.filter((s) => s.kind === 'machine').length;
  const hands = cell.robot.hands === 1 ? 'a single gripper' : 'a dual gripper';
  const money = facts.currency === '' ? '' : ` Money in ${facts.currency}.`;
  return `A robot with ${hands} at ${countText(machines, 'machine')}, ${countText(cell.routes.length, 'kind', 'kinds')} of part.${money} Estimates for a decision.`;
}

/** An answer as the worker has it, and how it says it to the page. */
import type { ScheduleFound } from '../../core/schedule/result.js';
import type { Block } from '../../render/document/blocks.js';
import { blocksHtml } from '../../render/document/document-html.js';
import type { AnswerSaid, AnswerStage, Asked, Result, Said } from './messages.js';

export interface Worked {
  readonly result: Result;
  readonly blocks: readonly Block[];
  /** The cell has no sequence, so that there is no answer; the blocks say why. */
  readonly isNone?: boolean;
}

export function saidOf(
  { id, question }: Asked,
  stage: AnswerStage,
  { result, blocks, isNone = false }: Worked,
  schedule: ScheduleFound | null = null,
): AnswerSaid {
  const within = blocks.filter((block) => block.kind !== 'section');
  return {
    id,
    kind: 'answer',
    question,
    stage,
    result,
    html: blocksHtml(within, question),
    schedule,
    isNone,
  };
}

/** Says what the work gives as it comes, then that it is done or why it failed. */
export async function sayAll(
  { id, question }: Asked,
  say: (said: Said) => void,
  work: () => void | Promise<void>,
): Promise<void> {
  try {
    await work();
    say({ id, kind: 'done', question });
  } catch (error) {
    say({ id, kind: 'failed', question, reason: error instanceof Error ? error.message : String(error) });
  }
}

/** `cautions`: what to take care of, in full, with the standard or rule that each rests on. */
import { cautions, cautionsFor } from '../../core/model/cautions.js';
import { bullets } from '../../render/paragraph.js';
import { requireName } from '../asked-ways.js';
import type { CommandBody } from '../command-spec.js';
import { EXIT } from '../exit-codes.js';

export const cautionsCommand: CommandBody = {
  argument: 'command whose cautions are asked for; without it all',
  options: () => [],
  examples: ['cautions', 'cautions costcase'],
  run: async (command) => {
    const known = [...new Set(cautions.flatMap((caution) => caution.commands))];
    if (command !== undefined) requireName(command, known, 'command with cautions');
    const list = command === undefined ? cautions : cautionsFor(command);
    return {
      exit: EXIT.done,
      fields: { cautions: list.map(({ id, text, reference }) => ({ id, text, reference })) },
      text: (style) =>
        `${bullets(
          list.map(({ text, reference }) => `${text} (${reference})`),
          style.columns,
        )}\n`,
      inputs: [],
    };
  },
};

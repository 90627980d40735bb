// `io` without its table says that the table is missing.
import { expect, test } from 'vitest';
import { data, run } from './run-in.js';

test('a folder without signals.csv', async () => {
  const said = await run(['io', data('wash-line')]);
  expect(said).toEqual({
    exit: 3,
    out: '',
    err: 'The folder has no signals.csv, so there are no points to count. That table lists\nstation, signal, direction (in or out) and more.\n',
  });
});

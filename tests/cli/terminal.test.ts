// Colour, width and plain characters follow the terminal.
import { describe, expect, test } from 'vitest';
import { data, run } from './run-in.js';

const ESCAPE = '\u001b[';
const schedule = ['schedule', data('wash-line')];
const utf8 = { LANG: 'en_GB.UTF-8' };

describe('colour', () => {
  test('none in a pipe', async () => {
    expect((await run(schedule)).out).not.toContain(ESCAPE);
  });
  test('in a terminal', async () => {
    expect((await run(schedule, { isTTY: true, env: utf8 })).out).toContain(ESCAPE);
  });
  test('NO_COLOR wins over a terminal and over FORCE_COLOR', async () => {
    const env = { ...utf8, NO_COLOR: '1', FORCE_COLOR: '1' };
    expect((await run(schedule, { isTTY: true, env })).out).not.toContain(ESCAPE);
  });
  test('FORCE_COLOR colours a pipe', async () => {
    expect((await run(schedule, { env: { FORCE_COLOR: '1' } })).out).toContain(ESCAPE);
  });
  test('never in JSON', async () => {
    const said = await run([...schedule, '--json'], { isTTY: true, env: { FORCE_COLOR: '1' } });
    expect(said.out).not.toContain(ESCAPE);
  });
  test('the text is the same with and without', async () => {
    const coloured = (await run(schedule, { isTTY: true, columns: 80, env: utf8 })).out;
    // biome-ignore lint/suspicious/noControlCharactersInRegex: colour codes are what is taken out
    expect(coloured.replace(/\u001b\[\d+m/g, '')).toBe((await run(schedule)).out);
  });
});

describe('characters and width', () => {
  test.each([
    { env: { LANG: 'C' } },
    { env: { LC_ALL: 'POSIX', LANG: 'en_GB.UTF-8' } },
    { env: { TERM: 'dumb' } },
    { env: {}, platform: 'win32' },
  ])('plain characters with %j', async (more) => {
    const { out } = await run([...schedule, '--full'], more);
    // The citations of the cautions are plain as well.
    // biome-ignore lint/suspicious/noControlCharactersInRegex: the range of plain characters is what is tested
    expect(out).toMatch(/^[\u0000-\u007f]*$/);
    expect(out).toContain('## machining');
  });

  test.each([80, 100, 160])('the text keeps within %i columns', async (columns) => {
    const { out } = await run(['schedule', data('two-hands')], {
      isTTY: true,
      columns,
      env: { ...utf8, NO_COLOR: '1' },
    });
    expect(Math.max(...out.split('\n').map((line) => line.length))).toBeLessThanOrEqual(columns);
  });
});

test('progress is shown on standard error of a terminal only, and taken away', async () => {
  const silent = await run(schedule);
  expect(silent.err).toBe('');
  const shown = await run(schedule, { isErrorTTY: true });
  expect(shown.err).toBe('Searching for the best sequence …\r\u001b[2K');
  expect(shown.out).toBe(silent.out);
});

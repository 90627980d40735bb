// A signal that arrives just as the last temporary path goes must still end the program.
import { spawnSync } from 'node:child_process';
import { existsSync, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { root } from '../cli/run-in.js';

const builtModule = join(root, 'dist/files/temporary-paths.js');
const run = (program: string) =>
  spawnSync(
    process.execPath,
    [
      '--input-type=module',
      '--eval',
      `import { trackTemporary, removeTemporary } from ${JSON.stringify(builtModule)};${program}`,
    ],
    { encoding: 'utf8', timeout: 240_000 },
  );

test('a signal caught before the last path goes, and answered after, is not lost', () => {
  const path = join(tmpdir(), 'roundsman-no-such-path');
  // The system catches the signal at once; listeners hear of it only when this turn has ended.
  const { signal, stdout } = run(`
    trackTemporary(${JSON.stringify(path)});
    process.kill(process.pid, 'SIGINT');
    removeTemporary(${JSON.stringify(path)});
    setTimeout(() => console.log('went on'), 500);`);
  expect({ signal, stdout }).toEqual({ signal: 'SIGINT', stdout: '' });
});

test('a signal takes the paths away and ends the program', () => {
  const path = mkdtempSync(join(tmpdir(), 'temporary-'));
  const { signal } = run(`
    trackTemporary(${JSON.stringify(path)});
    setTimeout(() => undefined, 10_000);
    process.kill(process.pid, 'SIGTERM');`);
  expect({ signal, there: existsSync(path) }).toEqual({ signal: 'SIGTERM', there: false });
  rmSync(path, { recursive: true, force: true });
});

test('where nothing is left to take away, a listener that stops the work itself is heard, once', () => {
  const path = join(tmpdir(), 'roundsman-no-such-path');
  const { signal, stdout } = run(`
    process.once('SIGINT', () => { console.log('stopping'); setTimeout(() => process.kill(process.pid, 'SIGINT'), 50); });
    trackTemporary(${JSON.stringify(path)});
    removeTemporary(${JSON.stringify(path)});
    setTimeout(() => console.log('went on'), 2_000);
    process.kill(process.pid, 'SIGINT');`);
  expect({ signal, stdout }).toEqual({ signal: 'SIGINT', stdout: 'stopping\n' });
});

test('before long work the listeners go, so that a signal ends it at once', () => {
  const path = join(tmpdir(), 'roundsman-no-such-path');
  const { signal, stdout } = run(`
    import { letSignalsEnd } from ${JSON.stringify(builtModule)};
    trackTemporary(${JSON.stringify(path)});
    removeTemporary(${JSON.stringify(path)});
    await letSignalsEnd();
    process.kill(process.pid, 'SIGINT');
    console.log('went on');`);
  expect({ signal, stdout }).toEqual({ signal: 'SIGINT', stdout: '' });
});

test('nor is one lost that comes while the system answers about a file, when the turn has heard its signals already', () => {
  const path = join(tmpdir(), 'roundsman-no-such-path');
  const { signal, stdout } = run(`
    import { letSignalsEnd } from ${JSON.stringify(builtModule)};
    import { stat } from 'node:fs';
    stat('.', async () => {
      trackTemporary(${JSON.stringify(path)});
      process.kill(process.pid, 'SIGINT');
      removeTemporary(${JSON.stringify(path)});
      await letSignalsEnd();
      console.log('went on');
    });`);
  expect({ signal, stdout }).toEqual({ signal: 'SIGINT', stdout: '' });
});

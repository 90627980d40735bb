// Builds dist/ from src/ afresh: removes the old output, compiles, and marks the command as executable.
import { execFileSync } from 'node:child_process';
import { chmodSync, rmSync } from 'node:fs';
import { createRequire } from 'node:module';
import { fileURLToPath } from 'node:url';

const root = fileURLToPath(new URL('..', import.meta.url));
const compiler = createRequire(import.meta.url).resolve('typescript/bin/tsc');

rmSync(`${root}/dist`, { recursive: true, force: true });
for (const project of ['tsconfig.json', 'tsconfig.page.json'])
  execFileSync(process.execPath, [compiler, '-p', `${root}/${project}`], { stdio: 'inherit', cwd: root });
chmodSync(`${root}/dist/cli/main.js`, 0o755);

// The tables saved into a folder, on the browser's own file system behind the same handles that a picked folder has.
import { mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Page } from 'playwright-core';
import { expect, test } from 'vitest';
import { firstCell } from '../../src/browser/start/first-cell.js';
import { freshFolder } from '../cli/run-in.js';
import { pageOf } from './cell-page.js';
import { HANGS_MS, inBrowser } from './chromium.js';

const cwd = freshFolder();

/** What the folder that was picked holds, as `folder/file` with its text. */
function picked(page: Page): Promise<Record<string, string>> {
  return page.evaluate(async () => {
    type Walked = { entries(): AsyncIterable<[string, FileSystemHandle]> };
    const found: Record<string, string> = {};
    const root = (await navigator.storage.getDirectory()) as unknown as Walked;
    for await (const [folder, handle] of root.entries())
      for await (const [file, one] of (handle as unknown as Walked).entries())
        found[`${folder}/${file}`] = await (await (one as FileSystemFileHandle).getFile()).text();
    return found;
  });
}

inBrowser('saving into a folder', (browser) => {
  test('writes the tables as they stand, asks before it replaces them, and takes away a table that is gone', async () => {
    const tables = firstCell({ cyclesS: [20], loadS: 5, unloadS: 4 });
    mkdirSync(join(cwd, 'one-machine'));
    for (const [name, text] of Object.entries(tables)) writeFileSync(join(cwd, 'one-machine', name), text);
    const file = await pageOf(cwd, join(cwd, 'one-machine'), 'cell.html');
    const page = await browser().newPage();
    page.setDefaultTimeout(HANGS_MS);
    // Only a page with an address of its own has such a file system; what is opened from disk has not.
    await page.route('http://localhost/**', (route) =>
      route.fulfill({ contentType: 'text/html; charset=utf-8', body: readFileSync(file, 'utf8') }),
    );
    await page.addInitScript(() => {
      Object.assign(window, { showDirectoryPicker: () => navigator.storage.getDirectory() });
    });
    const asked: string[] = [];
    let answer = true;
    page.on('dialog', (dialog) => {
      asked.push(dialog.message());
      void (answer ? dialog.accept() : dialog.dismiss());
    });
    await page.goto('http://localhost/cell.html');
    const save = async (said: RegExp): Promise<void> => {
      if ((await page.getAttribute('.menu', 'open')) === null) await page.click('.menu > summary');
      await page.getByRole('button', { name: 'The tables into a folder' }).click();
      await page.locator('[role=status]', { hasText: said }).waitFor();
    };

    await save(/^Saved into .*one-machine\.$/);
    const written = Object.fromEntries(
      Object.entries(tables).map(([name, text]) => [`one-machine/${name}`, text]),
    );
    expect(await picked(page)).toEqual(written);
    expect(asked).toEqual([]);

    await page.evaluate(async () => {
      const root = await navigator.storage.getDirectory();
      const folder = await root.getDirectoryHandle('one-machine');
      for (const name of ['shifts.csv', 'notes.txt']) {
        const stream = await (await folder.getFileHandle(name, { create: true })).createWritable();
        await stream.write('of the user');
        await stream.close();
      }
    });
    await page.getByRole('tab', { name: /^routes/ }).click();
    const field = page.getByLabel('cycle_s, row 2', { exact: true });
    await field.fill('75');
    await field.press('Enter');

    answer = false;
    await save(/^Nothing is saved\.$/);
    expect(asked).toHaveLength(1);
    expect((await picked(page))['one-machine/routes.csv']).toBe(written['one-machine/routes.csv']);

    answer = true;
    await save(/^Saved into/);
    const after = await picked(page);
    expect(after['one-machine/routes.csv']).toBe(
      written['one-machine/routes.csv']!.replace('machine_1,20', 'machine_1,75'),
    );
    // A table that this cell does not have would still be read; what is no table is not the program's to remove.
    expect(Object.keys(after).sort()).toEqual([...Object.keys(written), 'one-machine/notes.txt'].sort());
    await page.context().close();
  });
});

/** A desk as folders of tables, and folders of tables as a desk: the cell is one, each pinned state one that builds on it. */
import { complaintList } from '../../tables/complaint-list.js';
import type { Tables } from '../../tables/inspect-tables.js';
import { BASE_FILE, readBase } from '../../tables/overrides/base-table.js';
import { variantTables, withBase } from '../../tables/overrides/variant-tables.js';
import type { Desk, Variant } from '../state/desk.js';
import { fileName } from './save-file.js';

/** Tables by the path of their folder; the empty path is for files that came without one. */
export type Folders = ReadonlyMap<string, Tables>;

/** Folders beside one another, the cell first. */
export function foldersOf({ name, tables, variants }: Desk): Folders {
  const first = fileName(name);
  const folders = new Map<string, Tables>([[first, tables]]);
  for (const variant of variants) {
    const folder = freeName(fileName(variant.name), [...folders.keys()]);
    folders.set(folder, variantTables(tables, variant.tables, `../${first}`));
  }
  return folders;
}

function freeName(name: string, taken: readonly string[]): string {
  const known = new Set(taken.map((other) => other.toLowerCase()));
  for (let k = 2, free = name; ; k++, free = `${name}-${k - 1}`)
    if (!known.has(free.toLowerCase())) return free;
}

/** @returns one folder as the cell, those that build on it as pinned states; or why they are not one cell */
export function deskInFolders(folders: Folders): Pick<Desk, 'name' | 'tables' | 'variants'> | string {
  const whole = new Map<string, Tables>();
  const roots = [...folders].filter(([, tables]) => tables[BASE_FILE] === undefined);
  for (const [path, tables] of roots) whole.set(path, tables);
  let waiting = [...folders].filter(([path]) => !whole.has(path));
  while (waiting.length > 0) {
    const known = waiting.length;
    for (const [path, own] of waiting) {
      const base = basePath(path, own);
      if (base === null) return `${BASE_FILE} of ${path} names no folder that it builds on.`;
      if (!folders.has(base))
        return `${nameOf(path)} builds on another folder (${BASE_FILE}), which is not among these files. Open the folder that holds both of them.`;
      const under = whole.get(base);
      if (under === undefined) continue;
      const put = withBase(under, own);
      if (put === null)
        return `${nameOf(path)} and the folder that it builds on cannot be put together; \`check\` says why.`;
      whole.set(path, put);
    }
    waiting = waiting.filter(([path]) => !whole.has(path));
    if (waiting.length === known)
      return `The bases of ${waiting.map(([path]) => nameOf(path)).join(', ')} refer to each other.`;
  }
  if (roots.length > 1)
    return `There are tables in several folders: ${roots.map(([path]) => path || 'the top').join(', ')}. Open one folder.`;
  const [root, ...variants] = [...whole].map(([path, tables]): Variant => ({ name: nameOf(path), tables }));
  return { name: root!.name, tables: root!.tables, variants };
}

function nameOf(path: string): string {
  return path.split('/').at(-1)!;
}

/** The path of the folder that a folder builds on, as seen from where both stand. */
function basePath(path: string, own: Tables): string | null {
  const list = complaintList();
  const link = readBase(list, own[BASE_FILE]!, Object.keys(own));
  if (link === null || list.hasError()) return null;
  const pieces = path.split('/');
  for (const piece of link.folder.split(/[\\/]+/)) {
    if (piece === '..') pieces.pop();
    else if (piece !== '.' && piece !== '') pieces.push(piece);
  }
  return pieces.join('/');
}

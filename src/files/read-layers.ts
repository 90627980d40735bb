/** Reads a cell's folder together with the base that it may build on, and the base of that. */
import { basename, dirname, resolve } from 'node:path';
import type { Complaint } from '../core/model/complaint.js';
import { complain, complaintList } from '../tables/complaint-list.js';
import { BASE_FILE, readBase } from '../tables/overrides/base-table.js';
import { type LayeredTables, plainLayer } from '../tables/overrides/layered-tables.js';
import { type BaseLink, mergeBase } from '../tables/overrides/merge-base.js';
import { workbookKind } from '../workbook/workbook.js';
import { readFolder } from './read-folder.js';
import type { FolderRead } from './read-table-file.js';

/** Of a cell with its bases; what stands in a base has the base's path before its name. */
export interface LayersRead extends Pick<FolderRead, 'inputs' | 'readAs' | 'places' | 'isThere'> {
  readonly layers: LayeredTables;
}

/** @param path the folder, absolute; never throws for what is wrong on disk */
export async function readLayers(path: string, above: readonly string[] = []): Promise<LayersRead> {
  const { tables: all, complaints, inputs, unread, isThere, readAs, places } = await readFolder(path);
  const { [BASE_FILE]: baseText, ...tables } = all;
  const own: LayeredTables = {
    ...plainLayer(tables),
    complaints,
    unread: unread.filter((f) => f !== BASE_FILE),
  };
  const whole = { layers: own, inputs, isThere, readAs, places };
  if (!isThere || baseText === undefined)
    return { ...whole, isThere: isThere && !unread.includes(BASE_FILE) };
  const list = complaintList();
  const link = readBase(list, baseText, [...Object.keys(tables), ...unread]);
  if (link === null || list.hasError()) return failed(whole, list.sorted());
  return joined(path, whole, link, above);
}

/** One fault in base.csv would make a hundred false ones in the tables, so the tables are then left alone. */
function failed(read: LayersRead, more: readonly Complaint[]): LayersRead {
  const { layers } = read;
  return { ...read, layers: { ...layers, complaints: [...layers.complaints, ...more] }, isThere: false };
}

async function joined(
  path: string,
  own: LayersRead,
  link: BaseLink,
  above: readonly string[],
): Promise<LayersRead> {
  const here = workbookKind(path) !== null && own.places.size > 0 ? dirname(path) : path;
  const target = resolve(here, link.folder);
  const chain = [...above, path];
  if (chain.includes(target)) return failed(own, [circle(chain, target)]);
  const base = await readLayers(target, chain);
  const named = (file: string): string =>
    file === basename(target) && workbookKind(file) !== null ? link.folder : `${link.folder}/${file}`;
  const inputs = [...own.inputs, ...base.inputs.map((i) => ({ ...i, file: named(i.file) }))];
  const readAs = [...own.readAs, ...base.readAs.map((note) => ({ ...note, file: named(note.file) }))];
  const places = new Map([
    ...own.places,
    ...[...base.places].map(([file, p]) => [named(file), { ...p, file: named(p.file) }] as const),
  ]);
  if (!base.isThere)
    return failed(
      { ...own, inputs, readAs, places },
      base.layers.complaints.map((c) => lost(c, link)),
    );
  const merged = mergeBase(base.layers, own.layers.tables, link);
  const complaints = [...merged.complaints, ...own.layers.complaints];
  const unread = [...merged.unread, ...own.layers.unread];
  return { layers: { ...merged, complaints, unread }, inputs, readAs, places, isThere: true };
}

/** A base that cannot be read, told at base.csv; faults further down keep their own place. */
function lost(complaint: Complaint, link: BaseLink): Complaint {
  if (complaint.code !== 'FIL01' && complaint.code !== 'FIL02' && complaint.code !== 'FIL04')
    return { ...complaint, file: `${link.folder}/${complaint.file}` };
  const help = 'Give the path of the base as seen from this folder, such as `../demo`.';
  return { ...complaint, code: 'BAS02', file: BASE_FILE, column: 'folder', help };
}

function circle(chain: readonly string[], target: string): Complaint {
  const round = [...chain.slice(chain.indexOf(target)), target].map((p) => basename(p)).join(' to ');
  const help = 'Take base.csv out of one of these folders.';
  return complain('BAS03', BASE_FILE, `the bases refer to each other: ${round}`, help, { column: 'folder' });
}

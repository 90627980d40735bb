/** What the file of the page carries beside its script: a cell, the example, the script of its workers, its own text. */
import { inflateSync } from 'fflate';
import type { Hired } from '../engine/asker.js';
import type { SolverSaid } from '../engine/messages.js';
import { type Desk, deskOf, EMPTY_DESK, savedForm } from '../state/desk.js';
import { lateWorker } from './late-worker.js';

const CELL = 'carried-cell';
const EXAMPLE = 'carried-example';
const ENGINE = 'carried-engine';
const REPORT_SCRIPT = 'carried-report-script';
const SOLVER = 'carried-solver';

function textOf(id: string): string {
  return document.getElementById(id)?.textContent ?? '';
}

function deskIn(id: string): Desk | null {
  const text = textOf(id).trim();
  return text === '' ? null : deskOf(JSON.parse(text));
}

/** The cell that came with the page; null in an empty one. */
export function carriedDesk(): Desk | null {
  return deskIn(CELL);
}

export function exampleDesk(): Desk {
  return deskIn(EXAMPLE) ?? EMPTY_DESK;
}

/** The script of a report's page. */
export function reportScript(): string {
  return textOf(REPORT_SCRIPT);
}

/** True where the page carries the solver that plans mixes and jobs. */
export function hasSolver(): boolean {
  return document.getElementById(SOLVER)?.hasChildNodes() === true;
}

/** Hires workers of every question but the robot's sequence; their script is unpacked for the first of them. */
export function engineHire(): () => Hired {
  let parts: Promise<() => Worker> | null = null;
  return () => {
    parts ??= engineStart();
    return lateWorker(parts);
  };
}

async function engineStart(): Promise<() => Worker> {
  const packed = hasSolver() ? textOf(SOLVER).trim().split('\n') : [];
  const [load, solver] = await Promise.all(packed.map(unpacked));
  const script = [...(load === undefined ? [] : [load, '\n']), await unpacked(textOf(ENGINE))];
  const address = URL.createObjectURL(new Blob(script, { type: 'text/javascript' }));
  return () => {
    const worker = new Worker(address);
    if (solver !== undefined) worker.postMessage({ solver } satisfies SolverSaid);
    return worker;
  };
}

async function unpacked(text: string): Promise<Uint8Array<ArrayBuffer>> {
  const signs = atob(text.trim());
  const packed = new Uint8Array(signs.length);
  for (let k = 0; k < signs.length; k++) packed[k] = signs.charCodeAt(k);
  // Older browsers have no unpacking of their own, which does not make the page wait.
  if (typeof DecompressionStream === 'undefined') return new Uint8Array(inflateSync(packed));
  const stream = new Blob([packed]).stream().pipeThrough(new DecompressionStream('deflate-raw'));
  return new Uint8Array(await new Response(stream).arrayBuffer());
}

/** The page as it came, before anything was drawn; to be taken before the first drawing. */
let asItCame: HTMLElement | null = null;

export function keepPage(): void {
  asItCame = document.documentElement.cloneNode(true) as HTMLElement;
}

/** The text of this page with another cell in it. */
export function pageWith(desk: Desk): string {
  const page = asItCame!.cloneNode(true) as HTMLElement;
  page.querySelector(`#${CELL}`)!.textContent = JSON.stringify(savedForm(desk)).replaceAll('<', '\\u003c');
  return `<!doctype html>\n${page.outerHTML}\n`;
}

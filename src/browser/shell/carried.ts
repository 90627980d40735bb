/** What the file of the page carries beside its script: a cell, the example, the script of the worker, its own text. */
import { inflateSync } from 'fflate';
import type { SolverSaid } from '../engine/messages.js';
import { type Desk, deskOf, EMPTY_DESK, savedForm } from '../state/desk.js';

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
  return textOf(SOLVER).trim() !== '';
}

/** Starts workers as classic scripts from a blob: the only kind that starts in a page opened from disk. */
export function workerHire(): () => Worker {
  let parts: EngineParts | null = null;
  return () => {
    // Unpacked with the first worker, so that the page is drawn before.
    parts ??= engineParts();
    const worker = new Worker(parts.address);
    if (parts.solver !== undefined) worker.postMessage({ solver: parts.solver } satisfies SolverSaid);
    return worker;
  };
}

interface EngineParts {
  readonly address: string;
  readonly solver: Uint8Array<ArrayBuffer> | undefined;
}

function engineParts(): EngineParts {
  const [load, solver] = hasSolver() ? textOf(SOLVER).trim().split('\n').map(unpacked) : [];
  const script = [...(load === undefined ? [] : [load, '\n']), unpacked(textOf(ENGINE))];
  return { address: URL.createObjectURL(new Blob(script, { type: 'text/javascript' })), solver };
}

function unpacked(text: string): Uint8Array<ArrayBuffer> {
  const signs = atob(text.trim());
  const packed = new Uint8Array(signs.length);
  for (let k = 0; k < signs.length; k++) packed[k] = signs.charCodeAt(k);
  return new Uint8Array(inflateSync(packed));
}

/** The page as it came, before anything was drawn; to be taken before the first drawing. */
let asItCame = '';

export function keepText(): void {
  asItCame = `<!doctype html>\n${document.documentElement.outerHTML}\n`;
}

/** This page with another cell in it. */
export function pageWith(desk: Desk): string {
  const json = JSON.stringify(savedForm(desk)).replaceAll('<', '\\u003c');
  const block = new RegExp(`(<script type="application/json" id="${CELL}">)[^<]*(</script>)`);
  return asItCame.replace(block, (_, open: string, close: string) => `${open}${json}${close}`);
}

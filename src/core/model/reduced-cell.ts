/** A cell with only some of its machines: what can still be made there, and every table cut down to match. */
import type { Cell, Route } from './cell.js';

/** Machines that some route uses, in the order of the stations. */
export function usedMachines(cell: Cell): string[] {
  const used = new Set(cell.routes.flatMap((r) => r.steps.flatMap((s) => s.stations)));
  return cell.stations.filter((s) => s.kind === 'machine' && used.has(s.name)).map((s) => s.name);
}

/**
 * @param keep the machines that are there; all other kinds of station stay
 * @returns the cell without the other machines and without the parts that cannot be made any more; its routes may be
 *   none
 */
export function reducedCell(cell: Cell, keep: readonly string[]): Cell {
  const there = new Set(keep);
  const stations = cell.stations.filter((s) => s.kind !== 'machine' || there.has(s.name));
  const names = new Set(stations.map((s) => s.name));
  const routes = cell.routes.flatMap((route) => reducedRoute(route, names));
  const parts = new Set(routes.map((r) => r.part));
  const here = <T extends { readonly station: string }>(rows: readonly T[]): T[] =>
    rows.filter((row) => row.station === '*' || names.has(row.station));
  return {
    ...cell,
    stations,
    routes,
    travel: cell.travel.filter((t) => names.has(t.from) && names.has(t.to)),
    parts: cell.parts.filter((p) => parts.has(p.part)),
    stops: here(cell.stops),
    variation: here(cell.variation),
    changeovers: here(cell.changeovers),
    setups: here(cell.setups),
    jobs: cell.jobs.filter((job) => parts.has(job.part)),
    signals: here(cell.signals),
  };
}

function reducedRoute(route: Route, names: ReadonlySet<string>): Route[] {
  const steps = route.steps.map((step) => ({ ...step, stations: step.stations.filter((s) => names.has(s)) }));
  return steps.every((step) => step.stations.length > 0) ? [{ ...route, steps }] : [];
}

/** Reads a cell or throws: for programs that want the cell and nothing else. */
import type { Cell } from '../core/model/cell.js';
import { inspectTables, type Tables } from './inspect-tables.js';
import { TablesError } from './tables-error.js';

/**
 * @param tables texts of the tables by file name, such as `{ 'stations.csv': '…', 'routes.csv': '…', 'robot.csv': '…' }`
 * @returns the cell; warnings are passed over, `inspectTables` gives them
 * @throws TablesError with every complaint when there is an error
 */
export function readCell(tables: Tables): Cell {
  const { cell, complaints } = inspectTables(tables);
  if (cell === null) throw new TablesError(complaints);
  return cell;
}

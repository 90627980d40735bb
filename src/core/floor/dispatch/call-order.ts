/** The rules by which calls are put in order: each gives a round its turn, the least first; ties fall to the earlier call. */
import type { CallRule } from '../../model/call-rules.js';
import type { CompiledCell } from '../compiled-cell.js';
import type { CallRound } from './round.js';

/**
 * @param round what would answer the call
 * @param op operation that the call is about: of the finished part, or of the part that is wanted
 * @param at where the robot stands
 */
export type CallOrder = (cell: CompiledCell, round: CallRound, op: number, at: number) => number;

/** null = the call that came first, whatever it is about. */
export const CALL_ORDERS: Readonly<Record<CallRule, CallOrder | null>> = {
  first: null,
  nearest: (cell, { pick }, _op, at) => cell.travelEmptyS[at * cell.stationCount + pick.station]!,
  longest: (cell, _round, op) => -cell.opCycleS[op]!,
};

/** The fields of a result as `--json` prints them and as a sweep picks its figures from. */
import type { ScheduleFound, ScheduleOutcome } from '../schedule/result.js';
import type { SimulateStudy } from '../simulate/study-programs.js';

export type Fields = Readonly<Record<string, unknown>>;

/** All but what stands in lists of its own. */
export function plainFields(result: object): Fields {
  const lists = ['assumptions', 'warnings'];
  return Object.fromEntries(Object.entries(result).filter(([name]) => !lists.includes(name)));
}

export function scheduleFields(outcome: ScheduleOutcome): Fields {
  return 'order' in outcome ? foundFields(outcome) : { ...outcome };
}

function foundFields(schedule: ScheduleFound): Fields {
  const { rateBoundPerH, ...rest } = schedule;
  const fields = plainFields(rest);
  const { total, perPart, binding, goal } = rateBoundPerH;
  return { ...fields, rateBoundPerH: { total, perPart, binding, goal } };
}

export function simulationFields({ result, ...study }: SimulateStudy): Fields {
  return { ...plainFields(result), ...study };
}

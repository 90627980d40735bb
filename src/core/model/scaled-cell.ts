/** A cell with one kind of time longer or shorter everywhere, to see how an answer moves with the inputs. */
import type { Cell, Step } from './cell.js';

export const SCALED_ELEMENTS = ['cycle', 'load', 'unload', 'travel'] as const;
export type ScaledElement = (typeof SCALED_ELEMENTS)[number];

/**
 * @param factor 1.1 = 10% longer, above 0
 * @throws RangeError where the factor is not above 0
 */
export function scaledCell(cell: Cell, element: ScaledElement, factor: number): Cell {
  if (!(factor > 0) || !Number.isFinite(factor)) throw new RangeError('the factor must be above 0');
  if (element === 'travel') return scaledTravel(cell, factor);
  const key = `${element}S` as 'cycleS' | 'loadS' | 'unloadS';
  const scaled = (step: Step): Step => ({ ...step, [key]: step[key] * factor });
  return { ...cell, routes: cell.routes.map((r) => ({ ...r, steps: r.steps.map(scaled) })) };
}

/** Speed over the factor and acceleration over its square stretch every move by exactly the factor. */
function scaledTravel(cell: Cell, factor: number): Cell {
  const { speedMS, accelMS2, travelS } = cell.robot;
  return {
    ...cell,
    travel: cell.travel.map((t) => ({ ...t, emptyS: t.emptyS * factor, loadedS: t.loadedS * factor })),
    robot: {
      ...cell.robot,
      speedMS: speedMS === null ? null : speedMS / factor,
      accelMS2: accelMS2 === null ? null : accelMS2 / (factor * factor),
      travelS: travelS === null ? null : travelS * factor,
    },
  };
}

// Cells of the simulation's benchmark, as plain data.

function station(name, kind, more = {}) {
  const capacityParts = kind === 'machine' ? 1 : null;
  const none = { xM: null, yM: null, readyS: 0, closeS: 0, costPerH: 0, mtbfH: null, mttrMin: null };
  return { name, kind, capacityParts, ...none, ...more };
}

function step(number, stations, more = {}) {
  const plain = { cycleS: 0, loadS: 0, unloadS: 0, maxWaitS: null, partsPerCycle: 1, everyParts: 1 };
  return { step: number, stations, ...plain, ...more };
}

/** n like machines: exponential runs, a constant service of which half is unloading and half is loading. */
export function likeMachines(n, runS, serviceS, more = {}) {
  const names = Array.from({ length: n }, (_, i) => `machine_${i + 1}`);
  const times = { cycleS: runS, loadS: serviceS / 2, unloadS: serviceS / 2 };
  return {
    stations: [
      station('infeed', 'infeed'),
      ...names.map((name) => station(name, 'machine', more.station ?? {})),
      station('outfeed', 'outfeed'),
    ],
    routes: [{ part: 'part', steps: [step(1, ['infeed']), step(2, names, times), step(3, ['outfeed'])] }],
    robot: {
      hands: 1,
      indexS: 0,
      speedMS: null,
      accelMS2: null,
      travelS: more.travelS ?? 0,
      attendedSpeedPct: 100,
      costPerH: 0,
    },
    travel: [],
    parts: [],
    shifts: [],
    stops: more.stops ?? [],
    variation: more.variation ?? [
      { station: '*', element: 'cycle', distribution: 'exponential', parameters: [runS] },
    ],
    changeovers: [],
    signals: [],
    costs: [],
  };
}

/** Six machines as a shop has them: scatter, random stops, tool changes, an operator who takes a while to come. */
export function shopOfSix() {
  return likeMachines(6, 240, 24, {
    travelS: 4,
    station: { mtbfH: 8, mttrMin: 12, readyS: 2, closeS: 2 },
    stops: ['machine_1', 'machine_2', 'machine_3'].map((name, i) => ({
      station: name,
      name: 'tool change',
      everyParts: 60 + 20 * i,
      everyH: null,
      minutes: 5,
      operator: true,
    })),
    variation: [
      { station: '*', element: 'cycle', distribution: 'gamma', parameters: [240, 100] },
      { station: '*', element: 'response', distribution: 'exponential', parameters: [3] },
    ],
  });
}

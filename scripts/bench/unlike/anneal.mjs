// Another way to look for the best robot cycle of independent machines with one hand, sharing nothing with the program:
// simulated annealing over repeating sequences. An act takes the part of a machine to the outfeed, or fetches one from the
// infeed and loads it. A sequence is played round after round until what is left on the machines repeats; times are
// whole seconds, so what it makes is exact.
// Source: S. Kirkpatrick, C. D. Gelatt, M. P. Vecchi, Optimization by simulated annealing, Science 220, 1983.

/** Rounds played to value a sequence while annealing, and at most to value it exactly. */
const ROUNDS = 5;
const EXACT_ROUNDS = 400;
const MOST_ACTS = 320;
/** Shares of the value by which a worse sequence is taken at the beginning and at the end. */
const HOT = 1e-3;
const COLD = 2e-5;

/** Park and Miller's generator: S. K. Park, K. W. Miller, Communications of the ACM 31, 1988. */
function randomFrom(seed) {
  let state = seed % 2147483647;
  return () => {
    state = (state * 16807) % 2147483647;
    return (state - 1) / 2147483646;
  };
}

class Player {
  constructor({ machines, cycleS, loadS, unloadS, fetchS, putS, travelS }) {
    const out = machines + 1;
    this.machines = machines;
    this.cycleS = cycleS;
    this.width = machines + 2;
    this.wayS = Float64Array.from(travelS.flat());
    this.awayS = cycleS.map((_, j) => unloadS[j] + travelS[j + 1][out] + putS);
    this.comeS = cycleS.map((_, j) => fetchS + travelS[0][j + 1] + loadS[j]);
    this.readyS = new Float64Array(machines);
    this.before = new Float64Array(machines);
    this.timeS = 0;
    this.at = 0;
  }

  /** Acts 2 j take the part of machine j away, 2 j + 1 load it. */
  round(acts, many) {
    const { wayS, width, machines, readyS, awayS, comeS, cycleS } = this;
    let { timeS, at } = this;
    for (let i = 0; i < many; i++) {
      const j = acts[i] >> 1;
      if ((acts[i] & 1) === 0) {
        timeS += wayS[at * width + j + 1];
        if (readyS[j] > timeS) timeS = readyS[j];
        timeS += awayS[j];
        at = machines + 1;
      } else {
        timeS += wayS[at * width] + comeS[j];
        at = j + 1;
        readyS[j] = timeS + cycleS[j];
      }
    }
    this.timeS = timeS;
    this.at = at;
  }

  begin(acts, many) {
    this.timeS = 0;
    this.readyS.fill(0);
    const last = acts[many - 1];
    this.at = (last & 1) === 0 ? this.machines + 1 : (last >> 1) + 1;
  }

  worth(acts, many) {
    let worth = 0;
    for (let i = 0; i < many; i++) if ((acts[i] & 1) === 1) worth += this.cycleS[acts[i] >> 1];
    return worth;
  }

  /** Machine-cycle seconds a second, near enough to compare by. */
  rate(acts, many) {
    const { readyS, before, machines } = this;
    this.begin(acts, many);
    let fromS = 0;
    let lastS = 0;
    for (let round = 0; round < ROUNDS; round++) {
      fromS = lastS;
      this.round(acts, many);
      let same = round > 0;
      for (let j = 0; j < machines; j++) {
        const left = readyS[j] > this.timeS ? readyS[j] - this.timeS : 0;
        if (left !== before[j]) same = false;
        before[j] = left;
      }
      lastS = this.timeS;
      if (same) break;
    }
    return this.worth(acts, many) / (lastS - fromS);
  }

  /** The same exactly: until what is left repeats; 0 where it does not in so many rounds. */
  exactRate(acts, many) {
    this.begin(acts, many);
    const seen = new Map();
    for (let round = 0; round < EXACT_ROUNDS; round++) {
      this.round(acts, many);
      const left = Array.from(this.readyS, (s) => Math.max(0, s - this.timeS)).join(' ');
      const then = seen.get(left);
      if (then !== undefined)
        return (this.worth(acts, many) * (round - then.round)) / (this.timeS - then.timeS);
      seen.set(left, { round, timeS: this.timeS });
    }
    return 0;
  }
}

/** Every machine is loaded and unloaded in turn. */
function alternates(acts, many, last) {
  last.fill(-1);
  for (let twice = 0; twice < 2; twice++)
    for (let i = 0; i < many; i++) {
      const j = acts[i] >> 1;
      const kind = acts[i] & 1;
      if (last[j] === kind) return false;
      last[j] = kind;
    }
  return true;
}

/** To begin with: of a robot that serves whichever machine is finished first the stretch that makes most when repeated. */
function firstCalls(cell, fewest, most) {
  const player = new Player(cell);
  const acts = [];
  player.at = 0;
  for (let i = 0; i < 40 * cell.machines; i++) {
    let j = 0;
    for (let k = 1; k < cell.machines; k++) if (player.readyS[k] < player.readyS[j]) j = k;
    player.round([2 * j, 2 * j + 1], 2);
    acts.push(2 * j, 2 * j + 1);
  }
  let best = { rate: 0, acts: [] };
  for (let n = fewest; n <= most; n++)
    for (let from = 10 * cell.machines; from + n <= 40 * cell.machines; from++) {
      const own = acts.slice(2 * from, 2 * (from + n));
      const rate = player.rate(own, own.length);
      if (rate > best.rate) best = { rate, acts: own };
    }
  return best.acts;
}

/** Writes a changed sequence into `to`; returns its length, 0 where there is none. */
function change(acts, many, to, random, machines) {
  const pick = (n) => Math.floor(random() * n);
  const kind = random();
  const from = pick(many);
  const copy = (skip, length) => {
    let n = 0;
    for (let i = 0; i < many; i++) if (i < skip || i >= skip + length) to[n++] = acts[i];
    return n;
  };
  const insert = (n, at, ...own) => {
    to.copyWithin(at + own.length, at, n);
    for (const [k, act] of own.entries()) to[at + k] = act;
    return n + own.length;
  };
  if (kind < 0.45) {
    // A service, or two acts that follow one another, elsewhere: mostly near by.
    if (from + 1 >= many) return 0;
    const n = copy(from, 2);
    const step =
      (random() < 0.7 ? 2 : 1) * (1 + pick(random() < 0.7 ? 3 : many / 2)) * (random() < 0.5 ? 1 : -1);
    return insert(n, (((from + step) % (n + 1)) + n + 1) % (n + 1), acts[from], acts[from + 1]);
  }
  if (kind < 0.65) {
    const n = copy(from, 1);
    const step = (1 + pick(4)) * (random() < 0.5 ? 1 : -1);
    return insert(n, (((from + step) % (n + 1)) + n + 1) % (n + 1), acts[from]);
  }
  if (kind < 0.8) {
    // The same services by another machine.
    if (from + 1 >= many) return 0;
    const n = copy(from, 2);
    const j = pick(machines);
    return insert(n, from, 2 * j, 2 * j + 1);
  }
  if (kind < 0.9) {
    if (many + 2 > MOST_ACTS) return 0;
    const n = copy(0, 0);
    const j = pick(machines);
    return insert(n, from, 2 * j, 2 * j + 1);
  }
  if (many <= 4 || from + 1 >= many) return 0;
  return copy(from, 2);
}

/**
 * @param cell as in tests/reference/recomputed/unlike-machines.json
 * @param seed of the random numbers
 * @param trials sequences tried
 * @param services fewest and most of the first sequence
 * @returns most machine-cycle seconds a second, and the services of that sequence
 */
export function anneal(cell, seed, trials, [fewest, most]) {
  const player = new Player(cell);
  const random = randomFrom(seed);
  const last = new Int8Array(cell.machines);
  let acts = new Int32Array(MOST_ACTS + 8);
  let other = new Int32Array(MOST_ACTS + 8);
  const start = firstCalls(cell, fewest, most);
  let many = start.length;
  acts.set(start);
  let rate = player.rate(acts, many);
  let best = { rate: player.exactRate(acts, many), services: many / 2 };
  let top = rate;
  for (let trial = 0; trial < trials; trial++) {
    const n = change(acts, many, other, random, cell.machines);
    if (n === 0 || !alternates(other, n, last)) continue;
    const next = player.rate(other, n);
    const heat = HOT * (COLD / HOT) ** (trial / trials);
    if (next < rate && random() >= Math.exp((next / rate - 1) / heat)) continue;
    [acts, other] = [other, acts];
    many = n;
    rate = next;
    if (rate <= top * (1 + 1e-9)) continue;
    const exact = player.exactRate(acts, many);
    if (exact > best.rate) best = { rate: exact, services: many / 2 };
    top = Math.max(top, Math.min(rate, exact || rate));
  }
  return best;
}

/** What the cell loses while a machine stands, as plain data: by the steady cell, and by the floor's own week. */
/** One part over a week; good parts. */
export interface PartWeek {
  readonly part: string;
  /** Contribution of a good part. */
  readonly each: number;
  /** Good parts that are asked for; null = all that are made are sold. */
  readonly asked: number | null;
  /** Made while no machine stands for the harness or a box. */
  readonly free: number;
  /** Made with the harness moved to every machine. */
  readonly moved: number;
}

/** What machines standing costs by one model of the cell. */
export interface StandingModel {
  readonly parts: readonly PartWeek[];
  /** By machine and part: good parts not made in one hour in which the machine stands. */
  readonly lostPerH: Readonly<Record<string, Readonly<Record<string, number>>>>;
}

/** Minutes that connecting a machine takes at one of its changeovers, on average. */
export type ConnectingMinutes = Readonly<
  Record<string, { readonly way: 'harness' | 'box'; readonly minutes: number }>
>;

/** The floor: a pattern's weeks, run with and without the minutes. */
export interface FloorModel extends StandingModel {
  readonly pattern: string;
  /** Good parts a week by part, with these minutes at each machine. */
  readonly week: (minutes: ConnectingMinutes) => Readonly<Record<string, number>>;
}

export interface CycleModels {
  /** All cycle times at this share of those of the routes, per cent. */
  readonly cyclePct: number;
  readonly steady: StandingModel;
  readonly floor: StandingModel | null;
}

export interface StandingFacts {
  readonly steady: StandingModel;
  /** null where no shifts are given, or nobody is there to change a machine over. */
  readonly floor: FloorModel | null;
  /**
   * Both models at the low, the planned and the high cycle times, ascending; empty where the cycle times have neither low
   * nor high.
   */
  readonly atCycle: readonly CycleModels[];
  /** Sentences that say where the figures come from. */
  readonly because: readonly string[];
}

/**
 * Share of a part's lost pieces that would have been sold: over the week min(asked, made) falls by so much of what is
 * not made. It moves continuously with the demand.
 *
 * @param demandShare factor on what is asked for, 1 = as given
 */
export function soldShare(
  { asked, free, moved }: Pick<PartWeek, 'asked' | 'free' | 'moved'>,
  demandShare = 1,
): number {
  if (asked === null) return 1;
  const wanted = asked * demandShare;
  const lost = free - moved;
  if (Math.abs(lost) <= 1e-12 * Math.max(1, free)) return wanted >= free ? 1 : 0;
  return (Math.min(wanted, free) - Math.min(wanted, moved)) / lost;
}

/** Contribution of what a week sells. */
export function soldPerWeek(
  parts: readonly Pick<PartWeek, 'part' | 'each' | 'asked'>[],
  made: Readonly<Record<string, number>>,
): number {
  return parts.reduce(
    (sum, { part, each, asked }) => sum + each * Math.min(asked ?? Number.POSITIVE_INFINITY, made[part] ?? 0),
    0,
  );
}

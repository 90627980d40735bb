/** The cost case as plain data. Money is in the table's currency; flows run by year from 0, money out is negative. */
import type { Complaint } from '../model/complaint.js';
import type { Place } from '../model/place.js';
import type { Benefit } from './benefit.js';
import type { TaxBasis } from './case-inputs.js';
import type { MissingItem } from './case-problems.js';
import type { MinutesLine } from './changeover-minutes.js';
import type { CumulativeCost } from './cumulative-cost.js';
import type { ItemTurns, NearestTurn } from './doubt/choice-turns.js';
import type { Risk } from './doubt/risk.js';
import type { TornadoBar } from './doubt/tornado.js';
import type { Way } from './plan-flows.js';
import type { StandingResult } from './standing/standing-result.js';

/** Present worth of one way of doing it. */
export interface Worth {
  readonly cashFlow: readonly number[];
  /** Present value of all that it costs (positive). */
  readonly npvCost: number;
  /** The same as a level yearly cost over the horizon. */
  readonly annualEquivalent: number;
}

export interface AlternativeResult extends Worth {
  readonly name: string;
  readonly capital: number;
  /** Mean running cost of a year: changeovers, upkeep, worn connectors; without capital, salvage and tax. */
  readonly annualCost: number;
  readonly boxes: number;
  /** How each machine is served. */
  readonly ways: Readonly<Record<string, Way>>;
  /** Machines with a box, own or shared. */
  readonly stations: readonly string[];
  readonly afterTax: Worth | null;
  readonly withinBudget: boolean;
  /** This way less moving the harness, before tax; null for the harness itself. */
  readonly increment: IncrementResult | null;
  /** The same after tax; null where no tax is asked for. */
  readonly incrementAfterTax: IncrementResult | null;
}

/** One alternative less another. */
export interface IncrementResult {
  readonly cashFlow: readonly number[];
  /** Present value of the flows up to each year; the last is the net present value. */
  readonly runningPresentValue: readonly number[];
  readonly npv: number;
  /** The rate of return where there is exactly one; null where there is none or several. */
  readonly irrPct: number | null;
  /** Every rate of return above -100%, per cent, ascending. */
  readonly irrAll: readonly number[];
  readonly mirrPct: number | null;
  readonly paybackYears: number | null;
  readonly discountedPaybackYears: number | null;
  /** Present value of years 1 to H for each money of year 0; null where nothing is spent in year 0. */
  readonly benefitCost: number | null;
  readonly annualEquivalent: number;
}

export interface StationResult {
  readonly station: string;
  /** Its row in changeovers.csv. */
  readonly place: Place | null;
  readonly people: number;
  /** Share of the changeover in which the machine stands, per cent. */
  readonly internalPct: number;
  /** Signals to check and wire. */
  readonly signals: number;
  readonly boxes: number;
  readonly changeoversPerYear: number;
  /** Of these, changeovers to which the harness comes from elsewhere, while it serves every machine. */
  readonly movesPerYear: number;
  /** Minutes of one changeover each way, without what both have in common. */
  readonly harnessMin: number;
  readonly boxMin: number;
  /** Set-up minutes common to both ways. */
  readonly otherMin: number;
  readonly harnessLines: readonly MinutesLine[];
  readonly boxLines: readonly MinutesLine[];
  readonly labourPerMin: number;
  readonly contributionPerMin: number;
  /** With a box on this machine alone, over the whole cell. */
  readonly savedMinPerYear: number;
  /** Of these, at the other machines: the harness rests there because it is no longer fetched to this one. */
  readonly savedElsewhereMinPerYear: number;
  /** Saved minutes at the cost of a minute where each is saved, in money of year 0; upkeep and wear are not in it. */
  readonly savingPerYear: number;
  /** Boxes and their installation on this machine alone. */
  readonly capital: number;
  /** Worth of equipping this machine alone, the harness serving the others. */
  readonly npv: number;
  readonly npvAfterTax: number | null;
}

export interface SelectionResult {
  /** null = no limit. */
  readonly budget: number | null;
  readonly stations: readonly string[];
  readonly boxes: number;
  readonly capital: number;
  /** Worth of equipping these machines against moving the harness everywhere. */
  readonly npv: number;
  readonly proven: boolean;
  /** No selection within the budget is worth more. */
  readonly bound: number;
}

export interface ChallengeResult {
  readonly challenger: string;
  readonly defender: string;
  readonly npv: number;
  readonly irrAll: readonly number[];
  readonly winner: string;
}

export interface AuditInput {
  readonly item: string;
  readonly value: number | string;
  readonly place: Place | null;
  /** All lines of that file, where several rows together give the value. */
  readonly lines?: readonly number[];
  /** The audit's result that gives the value, where no table does. */
  readonly from?: string;
}

/** One cost item as it counts in this case. */
export interface CaseItem {
  readonly item: string;
  readonly value: number | string;
  readonly low: number | null;
  readonly high: number | null;
  readonly unit: string;
  /** What costs.csv says about where the value comes from. */
  readonly source: string;
  /** null where the default of the program is taken. */
  readonly place: Place | null;
  readonly meaning: string;
}

/** One figure with the formula and the inputs that it comes from. */
export interface AuditEntry {
  readonly result: string;
  readonly value: number | null;
  /** By the formula, or by a search or trials, which cannot be worked out from one line. */
  readonly how: 'formula' | 'search' | 'trials';
  readonly formula: string;
  readonly inputs: readonly AuditInput[];
}

/** Changeovers over the horizon at which the recommended alternative is worth what the harness is; null = never. */
export interface BreakEvenOfChoice {
  readonly name: string;
  /** Before tax. */
  readonly total: number | null;
  readonly totalAfterTax: number | null;
  /** `total` and `total after tax` where the value jumps over zero just past the count. */
  readonly atJump: readonly string[];
}

/** The case with all doubtful inputs at one end. */
export interface Scenario {
  readonly name: 'low' | 'expected' | 'high';
  readonly npv: number;
  readonly irrPct: number | null;
  readonly paybackYears: number | null;
}

export interface CostCaseFound {
  readonly status: 'found';
  readonly currency: string;
  readonly horizonYears: number;
  /** As given; what counts is `discount`. */
  readonly discountPct: number;
  /** The rate that the flows are discounted at, and its kind in words. */
  readonly discount: {
    readonly beforeTaxPct: number;
    readonly afterTaxPct: number | null;
    readonly kind: string;
  };
  readonly taxPct: number;
  readonly plannedChangeovers: number;
  readonly alternatives: readonly AlternativeResult[];
  /** Box on every machine less moving the harness, before tax. */
  readonly increment: IncrementResult;
  readonly incrementAfterTax: IncrementResult | null;
  readonly breakEvenChangeovers: {
    /** Over the horizon, over all machines in their proportions, before tax; null = never. */
    readonly total: number | null;
    readonly byStation: Readonly<Record<string, number | null>>;
    /** `total`, `total after tax` and machines whose value jumps over zero just past the count, because connectors fall due there. */
    readonly atJump: readonly string[];
    readonly totalAfterTax: number | null;
    /** Of the recommended alternative, where that is neither the harness nor boxes everywhere. */
    readonly ofChoice: BreakEvenOfChoice | null;
    readonly meaning: string;
  };
  readonly byStation: readonly StationResult[];
  readonly standing: StandingResult;
  /** Items of cost that are easily left out and count as 0 here. */
  readonly countedAsZero: readonly string[];
  /** What the gain of the recommended way is made of; of boxes everywhere where that is the harness. */
  readonly benefit: Benefit;
  /** Net present value of boxes everywhere less the sum over the machines alone: order prices, wear, the harness. */
  readonly sharedNpv: number;
  readonly selection: SelectionResult;
  readonly comparison: { readonly best: string; readonly challenges: readonly ChallengeResult[] };
  readonly tornado: readonly TornadoBar[];
  /** Where another choice becomes best, item by item; the one that needs the least change first. */
  readonly turns: readonly ItemTurns[];
  readonly nearestTurn: NearestTurn | null;
  readonly risk: Risk;
  /** The decision rests on the flows after tax where a tax is given. */
  readonly basis: TaxBasis;
  /** Sensitivity of the recommended alternative, where that is neither the harness nor boxes everywhere. */
  readonly tornadoOfChoice: readonly TornadoBar[] | null;
  /** Risk of the recommended alternative, where that is neither the harness nor boxes everywhere. */
  readonly riskOfChoice: Risk | null;
  /** Of the recommended way, of boxes everywhere where that is the harness; on the basis that decides. */
  readonly scenarios: readonly Scenario[];
  readonly cumulativeCost: CumulativeCost;
  readonly decision: string;
  readonly recommendation: string;
  /** Every item that counts, as given or by default, in the order of the list of items. */
  readonly costItems: readonly CaseItem[];
  readonly audit: readonly AuditEntry[];
  readonly assumptions: readonly string[];
  readonly warnings: readonly string[];
}

/** The figures of a case, before anything is said of them. */
export type CaseFigures = Omit<
  CostCaseFound,
  'recommendation' | 'costItems' | 'audit' | 'assumptions' | 'warnings'
>;

/** Items are missing: nothing is computed rather than invented. */
export interface CostCaseTooLittle {
  readonly status: 'too little data';
  readonly missing: readonly MissingItem[];
  readonly recommendation: string;
}

/** Values outside their range: nothing is computed. Missing items are listed too. */
export interface CostCaseWrong {
  readonly status: 'wrong';
  readonly complaints: readonly Complaint[];
  readonly missing: readonly MissingItem[];
  readonly recommendation: string;
}

export type CostCaseOutcome = CostCaseFound | CostCaseTooLittle | CostCaseWrong;

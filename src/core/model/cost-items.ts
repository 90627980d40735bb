/**
 * The money side's inputs as data: every item that costs.csv may name, with its unit, range, default and meaning.
 * The table reader checks against this list, the cost case takes its defaults from it, the README prints it.
 */

import { type ConnectionItem, connectionItem, connectionItems, connectionsOf } from './connection-items.js';

/** What kind of value an item takes. */
export type CostItemKind = 'number' | 'choice' | 'text' | 'price breaks';

export interface CostItemFormat {
  readonly name: string;
  /** What it is, in a few words, for reports. */
  readonly label: string;
  readonly kind: CostItemKind;
  /** Unit in words, such as `money per hour`; empty for texts and choices. */
  readonly unit: string;
  /** Value taken when the item is not given; null = none. A default of `labour_per_h` means that item's value. */
  readonly default: number | string | null;
  /** The cost case cannot be worked out without this item. */
  readonly needed: boolean;
  /** Least value of a number. */
  readonly min: number;
  /** True when the least value itself is not allowed. */
  readonly aboveMin: boolean;
  /** Largest value of a number; null = no other limit than that of every number. */
  readonly max: number | null;
  /** Whole numbers only. */
  readonly whole: boolean;
  /** The allowed words of a choice. */
  readonly choices: readonly string[];
  readonly meaning: string;
}

/** What an item is, in a few words. @example itemLabel('check_min_per_signal') // 'check time per signal' */
export function itemLabel(name: string): string {
  return costItemFormat(name)?.label ?? name;
}

/** The item of that name, of the list or of a named connection; null where there is none. */
export function costItemFormat(name: string): CostItemFormat | null {
  const listed = costItems.find((format) => format.name === name);
  if (listed !== undefined) return listed;
  const found = connectionItem(name);
  return found === null ? null : connectionFormat(found.connection, found.item);
}

/** Every item that a cost table can hold: those of the list, and those of each connection that it names. */
export function itemsOf(costs: readonly { readonly item: string }[]): readonly CostItemFormat[] {
  const connections = connectionsOf(costs);
  if (connections.length === 0) return costItems;
  return [
    ...costItems,
    ...connections.flatMap((connection) => connectionItems.map((each) => connectionFormat(connection, each))),
  ];
}

function connectionFormat(connection: string, { name, label, ...more }: ConnectionItem): CostItemFormat {
  return item({ ...more, name: `${connection}.${name}`, label: `${connection}: ${label}` });
}

type Given = Pick<CostItemFormat, 'name' | 'label' | 'unit' | 'meaning'> & Partial<CostItemFormat>;

/** A number that is not given counts as 0, unless it is needed or says otherwise. */
function item(given: Given): CostItemFormat {
  const { kind = 'number', needed = false } = given;
  return {
    kind,
    default: kind === 'number' && !needed ? 0 : null,
    needed: false,
    min: 0,
    aboveMin: false,
    max: null,
    whole: false,
    choices: [],
    ...given,
  };
}

const MONEY = 'money';
const MONEY_PER_H = 'money per hour';
const MINUTES = 'minutes';

/** Yearly rates within which the powers of a hundred years stay numbers. */
const RATE_LIMITS = { min: -90, max: 1000 } as const;

/** Every item of costs.csv, in the order in which `init` writes them. */
export const costItems: readonly CostItemFormat[] = [
  item({
    name: 'labour_per_h',
    label: 'labour rate',
    unit: MONEY_PER_H,
    needed: true,
    meaning: 'one person for one hour, all in',
  }),
  item({
    name: 'box_price',
    label: 'price of one box',
    unit: MONEY,
    needed: true,
    meaning: 'one interface box',
  }),
  item({
    name: 'box_inputs',
    label: 'inputs of one box',
    unit: 'points',
    default: null,
    min: 1,
    whole: true,
    meaning: 'input points of one box, from its data sheet; needed when signals.csv is given',
  }),
  item({
    name: 'box_outputs',
    label: 'outputs of one box',
    unit: 'points',
    default: null,
    min: 1,
    whole: true,
    meaning: 'output points of one box, from its data sheet; needed when signals.csv is given',
  }),
  item({
    name: 'box_amps',
    label: 'rated current of one box',
    unit: 'amperes',
    default: null,
    aboveMin: true,
    meaning: 'rated current of one box, from its data sheet; needed when signals.csv is given',
  }),
  item({
    name: 'box_mount_h',
    label: 'mounting one box',
    unit: 'hours',
    meaning: 'fitting one box on the machine',
  }),
  item({
    name: 'box_wire_min_per_signal',
    label: 'wiring time per signal',
    unit: MINUTES,
    meaning: 'wiring one signal to a box',
  }),
  item({
    name: 'box_upkeep_per_year',
    label: 'upkeep of one box',
    unit: 'money per year',
    meaning: 'upkeep of one box',
  }),
  item({
    name: 'box_salvage',
    label: 'resale value of one box',
    unit: MONEY,
    meaning: 'what one box fetches at the end',
  }),
  item({
    name: 'cable_set_price',
    label: 'cables for one box',
    unit: MONEY,
    meaning: 'cables for one box',
  }),
  item({
    name: 'install_per_h',
    label: 'fitter’s rate',
    unit: MONEY_PER_H,
    default: 'labour_per_h',
    meaning: 'fitter or electrician for one hour',
  }),
  item({
    name: 'box_fit_stand_h',
    label: 'machine downtime for fitting boxes',
    unit: 'hours',
    meaning: 'hours of downtime of a machine while its boxes are fitted',
  }),
  item({
    name: 'engineering_price',
    label: 'engineering',
    unit: MONEY,
    meaning: 'engineering and drawings, once, whatever the number of boxes',
  }),
  item({
    name: 'risk_assessment_price',
    label: 'repeated risk assessment',
    unit: MONEY,
    meaning: 'repeating the risk assessment of the cell, once, whatever the number of boxes',
  }),
  item({
    name: 'programming_h',
    label: 'programming per machine',
    unit: 'hours',
    meaning: 'programming for the boxes of one machine, at install_per_h',
  }),
  item({
    name: 'commissioning_h',
    label: 'commissioning per machine',
    unit: 'hours',
    meaning: 'commissioning the boxes of one machine, at install_per_h',
  }),
  item({
    name: 'contingency_pct',
    label: 'contingency',
    unit: '%',
    meaning: 'added to boxes, their fitting and what is bought once for them, for what nobody has thought of',
  }),
  item({
    name: 'harness_price',
    label: 'price of the harness',
    unit: MONEY,
    meaning: 'the harness that is moved; 0 = already owned',
  }),
  item({
    name: 'boxes_per_machine',
    label: 'boxes per machine',
    unit: 'boxes',
    default: 1,
    min: 1,
    whole: true,
    meaning: 'boxes on each machine when signals.csv is not given',
  }),
  item({
    name: 'connector_price',
    label: 'price of a connector set',
    unit: MONEY,
    meaning: 'one set of connectors',
  }),
  item({
    name: 'connector_matings',
    label: 'rated matings of a connector set',
    unit: 'matings',
    default: null,
    min: 1,
    whole: true,
    meaning: 'matings that a connector set is rated for; without it no set is replaced',
  }),
  item({
    name: 'harness_connectors',
    label: 'connectors of the harness',
    unit: 'connectors',
    needed: true,
    whole: true,
    meaning: 'connectors to unplug and plug again in one move of the harness',
  }),
  item({
    name: 'harness_min_per_connector',
    label: 'unplug and plug time per connector',
    unit: MINUTES,
    needed: true,
    meaning: 'unplugging and plugging one connector',
  }),
  item({
    name: 'harness_carry_min',
    label: 'carrying the harness',
    unit: MINUTES,
    meaning: 'carrying and routing the harness, once a move',
  }),
  item({
    name: 'harness_elsewhere_per_year',
    label: 'trips of the harness elsewhere',
    unit: 'times a year',
    meaning:
      'how often the harness is fetched to a place that changeovers.csv does not name; a harness that never leaves its machine is not moved',
  }),
  item({
    name: 'check_min_per_signal',
    label: 'check time per signal',
    unit: MINUTES,
    meaning: 'checking one signal after a move',
  }),
  item({
    name: 'fault_chance_harness',
    label: 'chance of a wiring fault, harness',
    unit: 'chance from 0 to 1',
    max: 1,
    meaning: 'chance of a wiring fault at one move of the harness',
  }),
  item({
    name: 'fault_chance_box',
    label: 'chance of a wiring fault, box',
    unit: 'chance from 0 to 1',
    max: 1,
    meaning: 'chance of a wiring fault at one changeover with a box',
  }),
  item({
    name: 'fault_find_min',
    label: 'time to find a wiring fault',
    unit: MINUTES,
    meaning: 'finding and mending one wiring fault',
  }),
  item({
    name: 'box_plug_min',
    label: 'plug time per box',
    unit: MINUTES,
    meaning: 'plugging in one box at one changeover',
  }),
  item({
    name: 'box_check_min',
    label: 'short check with a box',
    unit: MINUTES,
    meaning: 'the short check at one changeover with a box',
  }),
  item({
    name: 'horizon_years',
    label: 'years looked ahead',
    unit: 'years',
    needed: true,
    min: 1,
    max: 100,
    whole: true,
    meaning: 'years that the cost case looks ahead',
  }),
  item({
    name: 'discount_pct',
    label: 'discount rate',
    unit: '% a year',
    needed: true,
    ...RATE_LIMITS,
    meaning: 'what money must earn in a year',
  }),
  item({
    name: 'discount_tax',
    label: 'discount rate before or after tax',
    unit: '',
    kind: 'choice',
    default: 'both',
    choices: ['both', 'before-tax', 'after-tax'],
    meaning:
      'which cash flow discount_pct is meant for; the rate after tax is the one before tax less tax_pct of it; both = one rate for both',
  }),
  item({
    name: 'discount_prices',
    label: 'discount rate nominal or real',
    unit: '',
    kind: 'choice',
    default: 'nominal',
    choices: ['nominal', 'real'],
    meaning: 'nominal = discount_pct has the rise of prices in it; real = inflation_pct is added to it',
  }),
  item({
    name: 'tax_pct',
    label: 'tax rate',
    unit: '%',
    max: 100,
    meaning: 'tax on profit; 0 = before tax only',
  }),
  item({
    name: 'depreciation',
    label: 'depreciation',
    unit: '',
    kind: 'choice',
    default: 'straight-line',
    choices: ['none', 'straight-line', 'macrs-3', 'macrs-5', 'macrs-7'],
    meaning: 'how the purchases are written off for tax; none = never',
  }),
  item({
    name: 'invest_price',
    label: 'price of this cell as an investment',
    unit: MONEY,
    default: null,
    meaning: 'what it takes to have this cell in place of the one that is there, for `invest`',
  }),
  item({
    name: 'invest_life_years',
    label: 'life of this cell as an investment',
    unit: 'years',
    default: null,
    min: 1,
    max: 100,
    whole: true,
    meaning: 'years after which it has to be bought again, for `invest`; without it horizon_years',
  }),
  item({
    name: 'invest_yearly_cost',
    label: 'yearly cost of this cell as an investment',
    unit: 'money per year',
    meaning: 'upkeep, insurance and the like that the floor does not know, for `invest`',
  }),
  item({
    name: 'invest_salvage',
    label: 'resale value of this cell as an investment',
    unit: MONEY,
    meaning: 'what it fetches at the end of its life, for `invest`',
  }),
  item({
    name: 'hurdle_pct',
    label: 'hurdle rate',
    unit: '% a year',
    default: null,
    ...RATE_LIMITS,
    meaning: 'rate of return that an investment has to reach here, for the document of the case',
  }),
  item({
    name: 'payback_limit_years',
    label: 'payback limit',
    unit: 'years',
    default: null,
    meaning: 'payback that an investment must not exceed here, for the document of the case',
  }),
  ...(
    [
      ['case_title', 'title', 'title of the document of the case'],
      ['case_date', 'date', 'date of the document'],
      ['case_author', 'author', 'who made the case'],
      ['case_cost_centre', 'cost centre', 'cost centre that it is booked on'],
      ['case_revision', 'revision', 'revision of the document'],
      ['case_approvers', 'approvers', 'who signs, one after another with `;` between'],
      ['case_quotes', 'quotations', 'numbers or dates of the quotations'],
    ] as const
  ).map(([name, label, meaning]) => item({ name, label, unit: '', kind: 'text', default: '', meaning })),
  item({
    name: 'budget',
    label: 'budget',
    unit: MONEY,
    default: null,
    meaning: 'most that may be spent on boxes; without it there is no limit',
  }),
  item({
    name: 'currency',
    label: 'currency',
    unit: '',
    kind: 'text',
    default: '',
    meaning: 'name of the money, for the reports',
  }),
  item({
    name: 'machine_constrained',
    label: 'does downtime lose contribution',
    unit: '',
    kind: 'choice',
    default: 'from-schedule',
    choices: ['yes', 'no', 'from-schedule'],
    meaning: 'whether an hour of downtime loses contribution',
  }),
  item({
    name: 'contribution_per_machine_h',
    label: 'contribution per machine hour, as typed',
    unit: MONEY_PER_H,
    default: null,
    meaning: 'contribution lost by one hour of downtime; without it, taken from the schedule',
  }),
  item({
    name: 'labour_cash_pct',
    label: 'share of saved labour that turns into cash',
    unit: '%',
    default: 100,
    max: 100,
    meaning:
      'share of the labour saved that the shop can turn into cash, by less overtime or other paid work; the rest only frees time',
  }),
  item({
    name: 'contribution_pct',
    label: 'contribution per part, share of plan',
    unit: '%',
    default: 100,
    meaning:
      'all contributions of parts.csv are taken at this share where an hour of downtime is priced; give low and high when they are in doubt',
  }),
  item({
    name: 'demand_pct',
    label: 'demand, share of plan',
    unit: '%',
    default: 100,
    meaning:
      'all demands of parts.csv are taken at this share where an hour of downtime is priced; give low and high when they are in doubt',
  }),
  item({
    name: 'cycle_pct',
    label: 'machine cycle times, share of plan',
    unit: '%',
    default: 100,
    min: 20,
    max: 500,
    meaning:
      'all cycle times of routes.csv are taken at this share where an hour of downtime is priced; give low and high when they are in doubt: the cell is then worked out at both as well',
  }),
  item({
    name: 'box_price_breaks',
    label: 'price breaks of boxes',
    unit: 'boxes:price',
    kind: 'price breaks',
    meaning: 'price of one box from so many boxes on, such as `1:900;4:820`',
  }),
  item({
    name: 'box_price_pct',
    label: 'price of boxes, share of the quotation',
    unit: '%',
    default: 100,
    meaning:
      'box_price and all prices of box_price_breaks are taken at this share; give low and high when the quotation is in doubt',
  }),
  item({
    name: 'labour_burden_pct',
    label: 'labour burden',
    unit: '%',
    meaning: 'added to labour_per_h for leave, insurance and the like; 0 = labour_per_h is all in',
  }),
  item({
    name: 'signals_per_machine',
    label: 'signals per machine',
    unit: 'signals',
    whole: true,
    meaning: 'signals to check and wire on each machine that has no rows in signals.csv',
  }),
  item({
    name: 'harness_route_min',
    label: 'routing the harness',
    unit: MINUTES,
    meaning:
      'laying and tying the harness at the new machine, once a move, where harness_carry_min leaves it out',
  }),
  item({
    name: 'first_part_harness_min',
    label: 'first part after a harness move',
    unit: MINUTES,
    meaning: 'watching the first part after a move of the harness',
  }),
  item({
    name: 'first_part_box_min',
    label: 'first part with a box',
    unit: MINUTES,
    meaning: 'watching the first part after plugging in a box',
  }),
  item({
    name: 'identity_check_harness_min',
    label: 'machine identity check after a harness move',
    unit: MINUTES,
    meaning: 'checking after a move of the harness that the robot talks to the machine it thinks it does',
  }),
  item({
    name: 'identity_check_box_min',
    label: 'machine identity check with a box',
    unit: MINUTES,
    meaning: 'checking after plugging in a box that the robot talks to the machine it thinks it does',
  }),
  item({
    name: 'box_move_min',
    label: 'moving a shared box',
    unit: MINUTES,
    default: null,
    meaning:
      'taking a shared box off one machine and putting it on the next; without it shared boxes are not compared',
  }),
  item({
    name: 'box_plug_price',
    label: 'price of the robot-side plug',
    unit: MONEY,
    meaning: 'the plug on the robot cable that goes into a box, when worn out',
  }),
  item({
    name: 'box_plug_matings',
    label: 'rated matings of the robot-side plug',
    unit: 'matings',
    default: null,
    min: 1,
    whole: true,
    meaning: 'matings that the plug is rated for; without it the plug is not replaced',
  }),
  item({
    name: 'changeover_count_pct',
    label: 'changeovers per year, share of plan',
    unit: '%',
    default: 100,
    meaning:
      'all yearly counts of changeovers.csv are taken at this share; give low and high when they are in doubt',
  }),
  item({
    name: 'install_learning_pct',
    label: 'learning when fitting',
    unit: '%',
    default: 100,
    min: 50,
    max: 100,
    meaning:
      'fitting gets quicker with practice: mean hours a machine fall to this share each time the number of machines doubles',
  }),
  item({
    name: 'order_book_full',
    label: 'order book full',
    unit: '',
    kind: 'choice',
    default: 'from-demand',
    choices: ['yes', 'no', 'from-demand'],
    meaning:
      'whether more parts would be sold; from-demand holds the demand of parts.csv against what the cell makes',
  }),
  item({
    name: 'inflation_pct',
    label: 'price rise per year',
    unit: '% a year',
    ...RATE_LIMITS,
    meaning: 'yearly rise of all amounts after year 0',
  }),
  item({
    name: 'finance_pct',
    label: 'borrowing rate',
    unit: '% a year',
    default: 'discount_pct',
    ...RATE_LIMITS,
    meaning: 'rate at which money is borrowed, for the modified rate of return',
  }),
  item({
    name: 'reinvest_pct',
    label: 'reinvestment rate',
    unit: '% a year',
    default: 'discount_pct',
    ...RATE_LIMITS,
    meaning: 'rate at which savings are put to work, for the modified rate of return',
  }),
  item({
    name: 'depreciation_years',
    label: 'depreciation years',
    unit: 'years',
    default: 5,
    min: 1,
    max: 100,
    whole: true,
    meaning: 'years of straight-line depreciation',
  }),
  item({
    name: 'depreciation_half_year',
    label: 'half-year depreciation',
    unit: '',
    kind: 'choice',
    default: 'no',
    choices: ['yes', 'no'],
    meaning: 'straight-line depreciation takes half a year in the first and the last year',
  }),
  item({
    name: 'risk_distribution',
    label: 'distribution in the risk trials',
    unit: '',
    kind: 'choice',
    default: 'pert',
    choices: ['pert', 'triangular'],
    meaning: 'distribution of a value with low and high in the risk trials',
  }),
  item({
    name: 'fuse_amps',
    label: 'supply fuse',
    unit: 'amperes',
    aboveMin: true,
    default: 'box_amps',
    meaning: 'fuse of the supply of one box',
  }),
  item({
    name: 'fuse_load_pct',
    label: 'continuous load of the fuse',
    unit: '%',
    default: 80,
    aboveMin: true,
    max: 100,
    meaning: 'share of the fuse that may be used continuously',
  }),
  item({
    name: 'box_own_milliamps',
    label: 'own current of one box',
    unit: 'milliamperes',
    meaning: 'current that one box takes for itself',
  }),
  item({
    name: 'supply_reserve_pct',
    label: 'supply reserve',
    unit: '%',
    meaning: 'reserve added to the supply current before it is held against the fuse',
  }),
  item({
    name: 'cable_temperature_c',
    label: 'conductor temperature',
    unit: 'degrees Celsius',
    default: 20,
    min: -50,
    max: 200,
    meaning: 'temperature of the conductors, for their resistance',
  }),
];

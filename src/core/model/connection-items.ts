/**
 * Items of any further way of connecting a machine, such as a plug-in coupling: its name, a point, and the item, as in
 * `coupling.plug_min`. Minutes are those of one changeover; a part that stays on the machine counts once for each.
 */

export interface ConnectionItem {
  readonly name: string;
  readonly label: string;
  readonly unit: string;
  /** null = without it nothing is worked out that needs it; 0 where nothing is said. */
  readonly default?: null;
  readonly max?: number;
  readonly min?: number;
  readonly whole?: boolean;
  readonly meaning: string;
}

export const connectionItems: readonly ConnectionItem[] = [
  {
    name: 'price',
    label: 'price per machine',
    unit: 'money',
    meaning: 'the part that stays on one machine',
  },
  {
    name: 'once_price',
    label: 'price once',
    unit: 'money',
    meaning: 'the part at the robot and what else is bought once',
  },
  {
    name: 'fit_h',
    label: 'fitting per machine',
    unit: 'hours',
    meaning: 'fitting it on one machine, at install_per_h',
  },
  {
    name: 'fit_stand_h',
    label: 'machine downtime for fitting',
    unit: 'hours',
    meaning: 'hours of downtime of a machine while it is fitted',
  },
  {
    name: 'fit_min_per_signal',
    label: 'wiring time per signal',
    unit: 'minutes',
    meaning: 'wiring one signal to it, at install_per_h',
  },
  {
    name: 'upkeep_per_year',
    label: 'upkeep per machine',
    unit: 'money per year',
    meaning: 'upkeep of the part on one machine',
  },
  {
    name: 'salvage',
    label: 'resale value per machine',
    unit: 'money',
    meaning: 'what the part on one machine fetches at the end',
  },
  {
    name: 'plug_min',
    label: 'connecting',
    unit: 'minutes',
    meaning: 'connecting and disconnecting at one changeover',
  },
  { name: 'check_min', label: 'check', unit: 'minutes', meaning: 'the check at one changeover' },
  {
    name: 'check_min_per_signal',
    label: 'check time per signal',
    unit: 'minutes',
    meaning: 'checking one signal at one changeover',
  },
  {
    name: 'identity_check_min',
    label: 'machine identity check',
    unit: 'minutes',
    meaning: 'checking that the robot talks to the machine it thinks it does',
  },
  {
    name: 'first_part_min',
    label: 'first part',
    unit: 'minutes',
    meaning: 'watching the first part',
  },
  {
    name: 'fault_chance',
    label: 'chance of a wiring fault',
    unit: 'chance from 0 to 1',
    max: 1,
    meaning: 'chance of a wiring fault at one changeover',
  },
  {
    name: 'worn_price',
    label: 'price of the worn part',
    unit: 'money',
    meaning: 'the part that wears, when worn out',
  },
  {
    name: 'matings',
    label: 'rated matings',
    unit: 'matings',
    default: null,
    min: 1,
    whole: true,
    meaning: 'connections that the part is rated for; without it nothing is replaced',
  },
];

const NAME = /^([A-Za-z][\w -]{0,39})\.([a-z_]+)$/;

/** The connection and the item that a row of costs.csv names; null where it names neither. */
export function connectionItem(name: string): { connection: string; item: ConnectionItem } | null {
  const [, connection, own] = NAME.exec(name) ?? [];
  const item = connectionItems.find((each) => each.name === own);
  return connection === undefined || item === undefined ? null : { connection, item };
}

/** Connections named in costs.csv, in the order of their first rows. */
export function connectionsOf(costs: readonly { readonly item: string }[]): string[] {
  return [...new Set(costs.flatMap(({ item }) => connectionItem(item)?.connection ?? []))];
}

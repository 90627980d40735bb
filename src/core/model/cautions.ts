/**
 * Cautions that go with results, in neutral words, each with the reference shown beside it. Estimates replace neither
 * a risk assessment by competent or licensed people nor local codes.
 */

export interface Caution {
  readonly id: string;
  readonly text: string;
  /** Standards and rules that it rests on. */
  readonly reference: string;
  /** Commands whose results carry it. */
  readonly commands: readonly string[];
}

/** Every caution, in order of its number. */
export const cautions: readonly Caution[] = [
  {
    id: 'C01',
    text: 'A cost case does not replace a risk assessment of the complete cell, and adding or moving an interface is a change that calls for the assessment to be repeated.',
    reference: 'ISO 12100:2010; ISO 10218-2:2025 cl. 4; OSHA Technical Manual IV:4',
    commands: ['costcase', 'report'],
  },
  {
    id: 'C02',
    text: 'Integration of a robot cell is addressed by ISO 10218-2, whose 2025 edition replaced the 2011 one and took in the former ISO/TS 15066 content, so an estimate should state which edition the cell was assessed against.',
    reference: 'ISO 10218-1:2025, ISO 10218-2:2025 (Feb 2025)',
    commands: ['costcase', 'schedule', 'sweep', 'mix', 'report'],
  },
  {
    id: 'C03',
    text: 'Safety functions such as emergency stop, guard interlocking or enabling are outside the scope of this program and must not be carried by general-purpose inputs and outputs of the interface box.',
    reference: 'ISO 13849-1:2023; IEC 62061:2021; ISO 14119:2024 scope note',
    commands: ['io', 'costcase', 'report'],
  },
  {
    id: 'C04',
    text: 'The performance level or SIL needed for each safety function comes from the assessment (the 2025 robot standard lists default levels per function rather than one blanket PL d, category 3).',
    reference: 'ISO 10218-2:2025 informative annex; ISO 13849-1',
    commands: ['io', 'report'],
  },
  {
    id: 'C05',
    text: 'An interlocking device on a machine door has to be selected and installed so that the incentive and the possibility to defeat it are kept low; a wiring change must not bypass it.',
    reference: 'ISO 14119:2024',
    commands: ['io', 'report'],
  },
  {
    id: 'C06',
    text: 'The distance from a detection field to the hazard is worked out from the measured overall stopping time, so anything that lengthens the stop (a relay added in the box) means the distance must be checked again.',
    reference: 'ISO 13855, current edition',
    commands: ['io', 'report'],
  },
  {
    id: 'C07',
    text: 'With a person inside the guarded space under manual reduced-speed control, robot speed at the tool centre point is limited to 250 mm/s.',
    reference: 'ISO 10218-1; OSHA Technical Manual IV:4 (10 in/s)',
    commands: ['schedule', 'sweep', 'mix', 'size', 'simulate', 'shifts', 'compare', 'report'],
  },
  {
    id: 'C08',
    text: 'Speed and separation monitoring, where used, is a rated safety function with its own separation-distance calculation and is not something this program evaluates.',
    reference: 'ISO/TS 15066:2016, now in ISO 10218-2:2025; Marvel & Norcross, PMC5117641',
    commands: ['schedule', 'sweep', 'mix', 'simulate', 'report'],
  },
  {
    id: 'C09',
    text: 'Connecting or moving wiring where unexpected start-up or stored energy could injure someone is servicing work for which energy has to be isolated and locked out, unless the narrow minor-servicing exception with effective alternative protection applies.',
    reference: '29 CFR 1910.147(a)(2)(ii) and its note',
    commands: ['costcase', 'io', 'report'],
  },
  {
    id: 'C10',
    text: 'The cord-and-plug exemption from lockout holds only while the equipment is unplugged and the plug stays under the exclusive control of the person doing the work.',
    reference: '29 CFR 1910.147(a)(2)(iii)(A)',
    commands: ['costcase', 'io', 'report'],
  },
  {
    id: 'C11',
    text: 'Machines must keep guarding against point-of-operation, nip, rotating-part, chip and spark hazards whatever the interface arrangement.',
    reference: '29 CFR 1910.212(a)(1), (a)(3)(ii)',
    commands: ['schedule', 'sweep', 'mix', 'size', 'report'],
  },
  {
    id: 'C12',
    text: 'Electrical equipment added to a machine is subject to the machine-electrical standard, including overcurrent protection, marking, and plug-and-socket combinations that cannot be mis-mated where that could be dangerous.',
    reference: 'IEC 60204-1:2016; NFPA 79',
    commands: ['io', 'costcase', 'report'],
  },
  {
    id: 'C13',
    text: '24 V DC I/O circuits are normally PELV or SELV: at most 25 V AC or 60 V DC, safely separated from higher voltages, with PELV bonded on one side.',
    reference: 'IEC 60204-1 cl. 6.4; IEC 60364-4-41',
    commands: ['io', 'report'],
  },
  {
    id: 'C14',
    text: 'A software-based controller that performs a safety function has to go to a safe state on a single fault and stay there until it is put right, so ordinary controllers and interface modules are not assumed to qualify.',
    reference: 'NFPA 79 cl. 9.4.3; IEC 61508/62061, ISO 13849-1',
    commands: ['io', 'report'],
  },
  {
    id: 'C15',
    text: 'Connector life is a rated minimum number of mating cycles under test conditions; dirt, coolant, side load and mating under load shorten it.',
    reference: 'IEC 61076-2-101:2024; IEC 60512-9-1',
    commands: ['costcase', 'report'],
  },
  {
    id: 'C16',
    text: 'A wiring harness moved between machines can leave the robot and machine disagreeing about which machine is connected, so a positive machine identity check and a test of every signal after each changeover should be part of the compared procedure.',
    reference: 'ISO 12100 (foreseeable misuse, connection errors); IEC 60204-1 (coding of plugs)',
    commands: ['costcase', 'report'],
  },
  {
    id: 'C17',
    text: 'Short rest breaks of about 5 to 20 minutes count as hours worked under US federal rules while bona fide meal periods of 30 minutes or more do not, so labour hours must not simply be shift length.',
    reference: '29 CFR 785.18, 785.19',
    commands: ['costcase', 'shifts', 'report'],
  },
  {
    id: 'C18',
    text: 'The figures are estimates for a decision, not tax advice: depreciation tables, bonus and expensing rules vary by year and jurisdiction.',
    reference: 'IRS Publication 946',
    commands: ['costcase', 'report'],
  },
];

/**
 * The cautions that a command's result carries, in order.
 *
 * @param command name of the command; one that no caution names gets none
 * @example cautionsFor('costcase').map((caution) => caution.id) // ['C01', 'C02', 'C03', ...]
 */
export function cautionsFor(command: string): Caution[] {
  return cautions.filter((caution) => caution.commands.includes(command));
}

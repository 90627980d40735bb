/** robot.csv: settings of the robot, one a row. */

import type { Robot } from '../core/model/cell.js';
import { listText } from '../core/model/list-text.js';
import { type Column, type Columns, neededColumn, optional, type RowOf } from './column.js';
import { inBackticks } from './in-backticks.js';
import { nameHelp } from './nearest-name.js';
import { numberColumn } from './number-column.js';
import { sameWords } from './plain-words.js';
import { quantities } from './quantities.js';
import { read, readAs, refuse } from './reading.js';
import { firstOfEach } from './repeated-rows.js';
import { noteTaken, reportCell, type Sheet } from './sheet.js';
import { inCamelCase, type TypedRow, typedRows } from './typed-rows.js';

/** Every setting, each with its unit, range and default. */
export const robotSettings = {
  hands: optional(handsColumn(), 1 as const, '1'),
  index_s: optional(
    numberColumn('s', 'time to turn a dual gripper between its hands at a station', quantities.seconds),
    0,
  ),
  speed_m_s: optional(
    numberColumn('m/s', 'top speed, for travel by positions', quantities.metresPerSecond),
    null,
  ),
  accel_m_s2: optional(
    numberColumn(
      'm/s2',
      'acceleration and braking, for travel by positions',
      quantities.metresPerSecondSquared,
    ),
    null,
    'no ramp',
  ),
  travel_s: optional(
    numberColumn('s', 'one time for every pair of stations not given elsewhere', quantities.seconds),
    null,
  ),
  attended_speed_pct: optional(
    numberColumn('%', 'speed in attended hours, as a share of full speed', {
      words: 'per cent',
      min: 1,
      max: 100,
    }),
    100,
  ),
  cost_per_h: optional(numberColumn('money/h', 'running cost of the robot', quantities.moneyPerHour), 0),
} as const satisfies Columns;

type Setting = keyof typeof robotSettings;
const settingNames = Object.keys(robotSettings) as Setting[];

export const robotColumns = {
  setting: neededColumn<Setting>({
    unit: '',
    meaning: 'name of the setting',
    allowed: listText(settingNames, 'or'),
    choices: settingNames,
    read: (text) => readSetting(text),
  }),
  value: neededColumn<string>({
    unit: '',
    meaning: 'its value',
    allowed: 'the value of the setting',
    read: (text) => read(text),
  }),
} as const;

type RobotRow = TypedRow<typeof robotColumns>;

function handsColumn(): Column<1 | 2> {
  const allowed = '1 or 2';
  return neededColumn({
    unit: 'hands',
    meaning: 'parts that the gripper holds at once',
    allowed,
    read: (text) => {
      if (text === '1' || text === '2') return read(text === '1' ? 1 : 2);
      return refuse({ code: 'VAL05', text: `found ${inBackticks(text)}, expected ${allowed}`, help: null });
    },
  });
}

function readSetting(text: string) {
  const found = settingNames.find((name) => name === text);
  if (found !== undefined) return read(found);
  const meant = settingNames.filter((name) => sameWords(name, text));
  if (meant.length === 1) return readAs(meant[0]!, meant[0]!);
  const said = `found ${inBackticks(text)}, expected ${listText(settingNames, 'or')}`;
  return refuse<Setting>({ code: 'ROB01', text: said, help: nameHelp(text, settingNames, 'settings') });
}

export function readRobot(sheet: Sheet): Robot {
  const rows = firstOfEach(sheet, typedRows(sheet, robotColumns), 'ROB02', ['setting']);
  const settings = defaultSettings();
  for (const row of rows) settings[row.values.setting] = settingValue(sheet, row) as never;
  checkSettings(sheet, rows, settings);
  return inCamelCase(settings);
}

type Settings = { -readonly [K in Setting]: RowOf<typeof robotSettings>[K] };

function defaultSettings(): Settings {
  return Object.fromEntries(settingNames.map((name) => [name, robotSettings[name].blank])) as Settings;
}

function settingValue(sheet: Sheet, { row, values }: RobotRow): number | null {
  const column: Column<number | null> = robotSettings[values.setting];
  const reading = column.read(values.value, { decimalComma: sheet.delimiter === ';' });
  if (reading.ok) {
    noteTaken(sheet, row, 'value', reading);
    return reading.value;
  }
  const { fault } = reading;
  const text = `for ${values.setting} ${fault.text}`;
  reportCell(sheet, row, 'value', fault.code, () => ({ ...fault, text }));
  return column.blank ?? null;
}

function checkSettings(sheet: Sheet, rows: readonly RobotRow[], settings: Settings): void {
  const rowOf = (name: Setting) => rows.find((r) => r.values.setting === name)?.row;
  const accel = rowOf('accel_m_s2');
  if (accel && !rowOf('speed_m_s') && rows.length === sheet.rows.length) {
    reportCell(sheet, accel, 'setting', 'ROB03', () => ({
      text: '`accel_m_s2` is given and `speed_m_s` is not',
      help: 'Add a row `speed_m_s`; an acceleration alone gives no travel time.',
    }));
  }
  const index = rowOf('index_s');
  if (index && settings.hands === 1 && settings.index_s > 0) {
    reportCell(sheet, index, 'value', 'ROB04', () => ({
      severity: 'warning',
      text: `found index_s ${settings.index_s} with a single gripper, which does not turn; it is not used`,
      help: 'Set `hands` to 2 for a dual gripper, or take the row out.',
    }));
  }
}

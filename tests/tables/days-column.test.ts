// Days of a shift: single ones, ranges over the end of the week too, words for several; each once, in week order.
import { expect, test } from 'vitest';
import { daysColumn } from '../../src/tables/days-column.js';

const { read } = daysColumn('');
const daysOf = (text: string) => {
  const reading = read(text, { decimalComma: false });
  return reading.ok ? reading.value.join(' ') : reading.fault;
};

test.each([
  ['Tue', 'Tue'],
  ['Tue-Thu', 'Tue Wed Thu'],
  ['Sat,Mon-Tue,Mon', 'Mon Tue Sat'],
  ['Fri-Mon', 'Mon Fri Sat Sun'],
  ['Wed-Tue', 'Mon Tue Wed Thu Fri Sat Sun'],
  [' weekdays ; Sun', 'Mon Tue Wed Thu Fri Sun'],
  ['Die bis Don', 'Tue Wed Thu'],
])('%s', (text, days) => {
  expect(daysOf(text)).toBe(days);
});

test.each([
  ['Mon-Wed-Fri', 'Mon-Wed-Fri', [0, 11]],
  ['Mon, x ,Tue', 'x', [4, 7]],
  ['Mon-x', 'Mon-x', [0, 5]],
  ['x-Mon', 'x-Mon', [0, 5]],
])('%s is refused at what is no day', (text, found, span) => {
  expect(daysOf(text)).toMatchObject({
    code: 'VAL12',
    text: `found \`${found}\`, expected days such as \`Mon-Fri\`, \`Mon,Wed,Sat\` or \`Fri-Mon\``,
    span,
  });
});

test.each([
  ['Mon', undefined],
  [' Mon , Wed-Fri', undefined],
  ['mon', 'Mon'],
  ['weekdays', 'Mon-Fri'],
  ['Mon;Wed', 'Mon,Wed'],
  [' weekdays / Sun', 'Mon-Fri,Sun'],
  ['Die bis Don', 'Tue-Thu'],
])('%s is listed where it is written otherwise than the column', (text, taken) => {
  const reading = read(text, { decimalComma: false });
  expect(reading.ok && reading.taken).toBe(taken);
});

test('a fault names the days', () => {
  expect(daysOf('x')).toMatchObject({
    help: 'The days are Mon, Tue, Wed, Thu, Fri, Sat, Sun; set a list in quotation marks where commas part the columns.',
  });
});

/** The form in which headers and words are compared. */
import { expect, it } from 'vitest';
import { plainWords, sameWords, tellingWords, wordsAndUnit } from '../../src/tables/plain-words.js';

it.each([
  ['Running cost (money / hour)', ['running', 'cost', 'money', 'h']],
  ['cycle_s', ['cycle', 's']],
  ['  CYCLE-TIME [Seconds] ', ['cycle', 'time', 's']],
  ['yield %', ['yield', 'pct']],
  ['50%scrap', ['50', 'pct', 'scrap']],
  ['minutes mins minute', ['min', 'min', 'min']],
  ['hr hrs hours', ['h', 'h', 'h']],
  ['meter metres percent percentage sec secs second', ['m', 'm', 'pct', 'pct', 's', 's', 's']],
  // Wide signs of other keyboards; letters of any language.
  ['Ｃｙｃｌｅ', ['cycle']],
  ['Stück/Schicht', ['stück', 'schicht']],
  ['constructor', ['constructor']],
  ['--', []],
])('%s', (text, words) => {
  expect(plainWords(text)).toEqual(words);
});

it('two texts are alike in this form', () => {
  expect([
    sameWords('Not before', 'not_before'),
    sameWords('Cycle (sec)', 'cycle_s'),
    sameWords('cycle', 'cycles'),
  ]).toEqual([true, true, false]);
  expect(sameWords('a b', 'ab')).toBe(false);
});

it('some words say nothing more', () => {
  expect(tellingWords('The time of a cycle in seconds')).toEqual(['cycle', 's']);
  expect(tellingWords('no of parts')).toEqual(['parts']);
});

it('a unit stands at the end, behind at least one word', () => {
  expect(wordsAndUnit(['cycle', 'time', 's'])).toEqual({ stem: 'cycle time', unit: 's' });
  expect(wordsAndUnit(['s'])).toEqual({ stem: 's', unit: null });
  expect(wordsAndUnit(['s', 'cycle'])).toEqual({ stem: 's cycle', unit: null });
  expect(wordsAndUnit(['cable', 'mm2'])).toEqual({ stem: 'cable', unit: 'mm2' });
  expect(wordsAndUnit([])).toEqual({ stem: '', unit: null });
});

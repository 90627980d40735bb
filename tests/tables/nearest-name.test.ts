// The nearest of the known names, by letters that are changed, added or left out, counted by hand: at most a third of them.
import { describe, expect, it } from 'vitest';
import { nameHelp, nearestName, nearestNames } from '../../src/tables/nearest-name.js';

describe('the nearest name', () => {
  it.each([
    ['MILL', ['saw', 'mill'], 'mill'],
    ['mil', ['saw', 'mill'], 'mill'],
    // One letter of two may differ, two of six (of the longer one), and not three.
    ['ab', ['ax'], 'ax'],
    ['ab', ['xy'], null],
    ['abcdef', ['abcdxy'], 'abcdxy'],
    ['abcd', ['abcdef'], 'abcdef'],
    ['abcdef', ['abcd'], 'abcd'],
    ['abcdef', ['abcxyz'], null],
    ['abc', ['abx', 'abc'], 'abc'],
    ['abc', [], null],
  ])('of %s among %j is %s', (typed, known, nearest) => {
    expect(nearestName(typed, known)).toBe(nearest);
  });

  it('is one of several where they are equally near', () => {
    expect(nearestNames('mill_3', ['mill_1', 'saw', 'mill_2', 'mill_10'])).toEqual(['mill_1', 'mill_2']);
  });

  it('is told by the first two hundred characters', () => {
    expect(nearestName('a'.repeat(300), ['a'.repeat(180)])).toBe('a'.repeat(180));
  });
});

describe('the help', () => {
  const mills = ['mill_1', 'mill_2', 'mill_3', 'mill_4', 'mill_5'];

  it('offers up to four names that are equally near', () => {
    expect(nameHelp('mill_9', mills.slice(0, 4), 'stations')).toBe(
      'Did you mean `mill_1`, `mill_2`, `mill_3` or `mill_4`?',
    );
  });

  it('lists the known names where more are near, or none', () => {
    const all = 'Known stations: mill_1, mill_2, mill_3, mill_4, mill_5.';
    expect(nameHelp('mill_9', mills, 'stations')?.replaceAll('`', '')).toBe(all);
    expect(nameHelp('saw', mills, 'stations')?.replaceAll('`', '')).toBe(all);
    expect(nameHelp('saw', [], 'stations')).toBeNull();
  });
});

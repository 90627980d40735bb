// Standstills of a week as data: every one that the run told, with its times in words, and none without an end as Infinity.
import { describe, expect, test } from 'vitest';
import { weekStandstills } from '../../../src/core/shifts/standstills.js';

describe('standstills', () => {
  const rack = { cause: 'rack full', station: 'done', stop: '' } as const;

  test('times in seconds and in words', () => {
    expect(weekStandstills([{ ...rack, fromS: 78_720, untilS: 108_000 }])).toEqual([
      { ...rack, fromS: 78_720, untilS: 108_000, from: 'Mon 21:52', until: 'Tue 06:00' },
    ]);
  });

  test('one that began in the week before', () => {
    const [told] = weekStandstills([{ ...rack, fromS: -3600, untilS: 3600 }]);
    expect(told).toMatchObject({ fromS: -3600, from: 'Sun 23:00', until: 'Mon 01:00' });
  });

  test('one that nobody ends has no end, also as JSON', () => {
    const [told] = weekStandstills([{ ...rack, fromS: 0, untilS: Number.POSITIVE_INFINITY }]);
    expect(told).toMatchObject({ untilS: null, until: null });
    expect(JSON.parse(JSON.stringify(told))).toEqual(told);
  });
});

// Whatever the readings: finite figures, whole sentences, and rows that the tables take.
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { OUTLIER_RULES } from '../../../src/core/readings/outliers.js';
import { readingsAssumptions, readingsWarnings } from '../../../src/core/readings/remarks.js';
import { defaultReadingsOptions, studyReadings } from '../../../src/core/readings/study-readings.js';
import { renderReadings } from '../../../src/render/readings.js';
import { readingsCsv } from '../../../src/render/readings-files.js';
import { plainStyle } from '../../../src/render/text-style.js';
import { inspectTables } from '../../../src/tables/inspect-tables.js';
import { tableText } from '../../../src/tables/table-text.js';
import { cases } from '../../support/size.js';
import { soundTables } from '../../tables/sound-tables.js';

/** Over all that the file may hold, and close together, where digits cancel. */
const seconds = fc.oneof(
  fc.double({ min: -3, max: 6, noNaN: true }).map((exponent) => 10 ** exponent),
  fc.integer({ min: 1, max: 5 }),
  fc.double({ min: 99.99, max: 100.01, noNaN: true }),
);
const drawn = fc.record({
  times: fc.array(seconds, { minLength: 1, maxLength: 50 }),
  outlierRule: fc.constantFrom(...OUTLIER_RULES),
  dropOutliers: fc.boolean(),
  element: fc.constantFrom('mill_1 cycle', 'mill_1 repair', 'travel rack mill_1', 'index'),
});

function onlyFinite(key: string, value: unknown): unknown {
  if (typeof value === 'number') expect(Number.isFinite(value), key).toBe(true);
  return value;
}

test('they are studied, told and made into rows', () => {
  fc.assert(
    fc.property(drawn, ({ times, element, ...choice }) => {
      const readings = times.map((time, i) => ({
        element,
        // Minutes of repair below a hundredth are no shop's.
        seconds: element.endsWith('repair') ? 60 * time : time,
        cell: '',
        observer: i % 2 ? 'early' : 'late',
        note: '',
        ratingPct: i % 3 ? 100 : 1 + (i % 300),
        foreign: i % 17 === 16,
      }));
      const options = { ...defaultReadingsOptions, ...choice, allowance: { pct: 10, basis: 'day' } as const };
      const study = studyReadings(readings, null, options);
      JSON.stringify(study, onlyFinite);
      const view = { study, options, folder: null };
      const said = [
        renderReadings(view, plainStyle),
        readingsCsv(study),
        ...readingsWarnings(study, options),
        ...readingsAssumptions(study, options),
      ].join('\n');
      expect(said).not.toMatch(/NaN|Infinity|undefined|\[object/);
      const variation = study.tables.find((t) => t.file === 'variation.csv');
      const rows = variation ? [variation.header, ...variation.rows] : [];
      const { complaints } = inspectTables({
        ...soundTables,
        ...(variation ? { 'variation.csv': tableText(rows) } : {}),
      });
      expect(complaints.filter((c) => c.severity === 'error')).toEqual([]);
    }),
    { numRuns: cases(400) },
  );
});

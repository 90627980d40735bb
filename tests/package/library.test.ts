// The library: its public names, and that it runs where there is no Node.
import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import vm from 'node:vm';
import { build } from 'esbuild';
import { expect, test } from 'vitest';
import * as library from '../../src/index.js';
import { freshFolder, root } from '../cli/run-in.js';

test('the public names', () => {
  expect(Object.keys(library).sort()).toEqual([
    'LogAnalysis',
    'LogReader',
    'TablesError',
    'WorkbookFault',
    'annualEquivalent',
    'bestPattern',
    'bestSchedule',
    'cautionsFor',
    'cellsStudies',
    'changeoverOrder',
    'checkSchedule',
    'compareLog',
    'constantServiceInterference',
    'costCase',
    'costItems',
    'depreciation',
    'discountedPaybackYears',
    'finiteSourceQueue',
    'identicalCell',
    'inspectTables',
    'inspectWorkbook',
    'internalRatesOfReturn',
    'leastPeriod',
    'logFacts',
    'modifiedRateOfReturn',
    'moveTime',
    'netPresentValue',
    'openSpans',
    'paybackYears',
    'points',
    'randomServicing',
    'rateBound',
    'readCell',
    'readReadings',
    'runStudy',
    'shiftPatterns',
    'shiftYield',
    'simulateCell',
    'sizeCell',
    'sizeStudy',
    'standingHours',
    'studies',
    'studyCell',
    'studyReadings',
    'summarizeLog',
    'synchronousServicing',
    'tableFormats',
    'weekCalendar',
    'weeklyJobs',
    'workbookKind',
    'wrightInterference',
  ]);
});

const TABLES = {
  'stations.csv': 'station,kind\nrack,infeed\nmill,machine\nout,outfeed\n',
  'routes.csv':
    'part,step,stations,cycle_s,load_s,unload_s\ncap,1,rack,,,3\ncap,2,mill,60,5,4\ncap,3,out,,3,\n',
  'robot.csv': 'setting,value\ntravel_s,2\n',
};

test('bundled for a browser it imports nothing of Node and runs in a bare context', async () => {
  const folder = freshFolder();
  const entry = join(folder, 'page.ts');
  writeFileSync(
    entry,
    `import { bestSchedule, netPresentValue, readCell } from ${JSON.stringify(join(root, 'src/index.ts'))};
const outcome = bestSchedule(readCell(${JSON.stringify(TABLES)}));
globalThis.answer = { periodS: outcome.periodS, status: outcome.status, npv: netPresentValue(0.1, [-100, 110]) };
`,
  );
  const { outputFiles, metafile } = await build({
    entryPoints: [entry],
    bundle: true,
    write: false,
    metafile: true,
    platform: 'browser',
    format: 'iife',
    nodePaths: [join(root, 'node_modules')],
    logLevel: 'silent',
  });
  const inputs = Object.values(metafile.inputs).flatMap((input) => input.imports.map((i) => i.path));
  expect(inputs.filter((path) => path.startsWith('node:'))).toEqual([]);
  // No require, no process, no module system: only what every page has.
  const page: { answer?: { periodS: number; status: string; npv: number } } & Record<string, unknown> = {
    TextDecoder,
    TextEncoder,
    performance,
    console,
  };
  vm.runInNewContext(outputFiles[0].text, page);
  // Mill alone: take out 4, carry 2, set down 3, to the rack 2, pick 3, carry 2, place 5, cut 60.
  expect(page.answer).toEqual({
    periodS: expect.closeTo(81, 9),
    status: 'proven',
    npv: expect.closeTo(0, 9),
  });
});

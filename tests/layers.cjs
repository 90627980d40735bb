// Who may import whom, and why. Checked by `npm run layers`; tests/package/layers.test.ts makes sure that each rule bites.
/** Rooms of the core, the lowest first: each may use those before it. */
const ROOMS = [
  ...[
    'numbers',
    'model',
    'statistics',
    'distributions',
    'lp',
    'calendar',
    'schedule',
    'interference',
    'io',
    'readings',
    'cost',
  ],
  ...[
    'floor',
    'shifts',
    'performance',
    'standing',
    'simulate',
    'log',
    'size',
    'setups',
    'mix',
    'jobs',
    'compare',
  ],
  ...['studies', 'sweep', 'report'],
];

/** Rooms of the schedule, the lowest first. */
const SCHEDULE_ROOMS = [
  'plan',
  'evaluate',
  'bound',
  'play',
  'every-sequence',
  'watched',
  'search',
  'explain',
  'best-schedule.ts',
];

/** @type {import('dependency-cruiser').IConfiguration} */
module.exports = {
  forbidden: [
    {
      name: 'no-circles',
      comment: 'Two files that need each other cannot be understood, tested or moved alone.',
      severity: 'error',
      from: {},
      to: { circular: true },
    },
    {
      name: 'pure-layers-know-no-node',
      comment:
        'Core, tables, workbook, render and browser run in a page: no file, process or terminal there.',
      severity: 'error',
      from: { path: '(^|/)src/(core|tables|workbook|render|browser)/' },
      to: { dependencyTypes: ['core'] },
    },
    {
      name: 'core-stands-alone',
      comment: 'The mathematics knows nothing of tables, files, texts or commands.',
      severity: 'error',
      from: { path: '(^|/)src/core/' },
      to: { path: '(^|/)src/', pathNot: '(^|/)src/core/' },
    },
    ...ROOMS.slice(0, -1).map((room, at) => ({
      name: 'rooms-in-order',
      comment: 'Two rooms of the core that need each other cannot be understood, tested or moved alone.',
      severity: 'error',
      from: { path: `(^|/)src/core/${room}/` },
      to: { path: `(^|/)src/core/(${ROOMS.slice(at + 1).join('|')})/` },
    })),
    ...SCHEDULE_ROOMS.slice(0, -1).map((room, at) => ({
      name: 'schedule-in-order',
      comment:
        'What has to be done, what an order yields and what none can exceed are known without the search.',
      severity: 'error',
      from: { path: `(^|/)src/core/schedule/${room}/` },
      to: { path: `(^|/)src/core/schedule/(${SCHEDULE_ROOMS.slice(at + 1).join('|')})` },
    })),
    {
      name: 'core-packages',
      comment: 'The core takes only packages that compute and run in a page.',
      severity: 'error',
      from: { path: '(^|/)src/core/' },
      to: {
        dependencyTypes: ['npm', 'npm-dev', 'npm-optional', 'npm-peer', 'npm-no-pkg', 'npm-unknown'],
        pathNot:
          'node_modules/(@stdlib/math-base-special-[a-z0-9]+|javascript-lp-solver|simple-statistics|temporal-polyfill)/',
      },
    },
    {
      name: 'model-is-lowest',
      comment: 'The types of the cell are read by everything and read nothing but themselves.',
      severity: 'error',
      from: { path: '(^|/)src/core/model/' },
      to: { path: '(^|/)src/', pathNot: '(^|/)src/core/model/' },
    },
    {
      name: 'statistics-is-lowest',
      comment:
        'Distributions, quantiles and intervals serve simulation, cost and readings alike; they know numbers and no cell.',
      severity: 'error',
      from: { path: '(^|/)src/core/statistics/' },
      to: { path: '(^|/)src/', pathNot: '(^|/)src/core/(numbers|statistics)/' },
    },
    {
      name: 'tables-on-core',
      comment: 'Reading tables needs the types of the cell and nothing above.',
      severity: 'error',
      from: { path: '(^|/)src/tables/' },
      to: { path: '(^|/)src/', pathNot: '(^|/)src/(core|tables)/' },
    },
    {
      name: 'workbook-on-tables',
      comment: 'A workbook is another form of the tables; it knows their columns and nothing above.',
      severity: 'error',
      from: { path: '(^|/)src/workbook/' },
      to: { path: '(^|/)src/', pathNot: '(^|/)src/(core/model|tables|workbook)/' },
    },
    {
      name: 'render-on-results',
      comment: 'A renderer turns a result into text; it reads no disk and starts no work.',
      severity: 'error',
      from: { path: '(^|/)src/render/' },
      to: { path: '(^|/)src/', pathNot: '(^|/)src/(core|tables|workbook|render)/' },
    },
    {
      name: 'render-computes-nothing',
      comment:
        "Renderers take the core's types and the lists of its model; a call into an algorithm would hide work.",
      severity: 'error',
      from: { path: '(^|/)src/render/' },
      to: {
        path: '(^|/)src/core/',
        pathNot: '(^|/)src/core/model/',
        dependencyTypesNot: ['type-only'],
      },
    },
    {
      name: 'files-below-cli',
      comment: 'Reading and writing folders serves commands and pages alike.',
      severity: 'error',
      from: { path: '(^|/)src/files/' },
      to: { path: '(^|/)src/', pathNot: '(^|/)src/(core|tables|workbook|files)/' },
    },
    {
      name: 'solver-on-core',
      comment: 'The solver of mixed programs answers to the core’s interface and knows nothing else.',
      severity: 'error',
      from: { path: '(^|/)src/solver/' },
      to: { path: '(^|/)src/', pathNot: '(^|/)src/(core/lp|solver)/' },
    },
    {
      name: 'workers-on-core',
      comment:
        'Worker threads run the core on tables or cells, with the solver it asks for; they know nothing of texts or commands.',
      severity: 'error',
      from: { path: '(^|/)src/workers/' },
      to: { path: '(^|/)src/', pathNot: '(^|/)src/(core|tables|solver|workers)/' },
    },
    {
      name: 'nobody-needs-cli',
      comment: 'Commands are the top: they put the layers together and nothing builds on them.',
      severity: 'error',
      from: { path: '(^|/)src/', pathNot: '(^|/)src/cli/' },
      to: { path: '(^|/)src/cli/' },
    },
    {
      name: 'browser-on-pure-layers',
      comment: 'The page of a cell puts the pure layers together, as the commands do in a terminal.',
      severity: 'error',
      from: { path: '(^|/)src/browser/' },
      to: {
        path: '(^|/)src/',
        pathNot:
          '(^|/)src/(core|tables|workbook|render|browser)/|(^|/)src/solver/solver-on-highs\\.ts$|node_modules/',
      },
    },
    {
      name: 'nobody-needs-browser',
      comment: 'It is bundled into one file; what imports it would need a document.',
      severity: 'error',
      from: { path: '(^|/)src/', pathNot: '(^|/)src/browser/' },
      to: { path: '(^|/)src/browser/' },
    },
    {
      name: 'page-stands-alone',
      comment: 'The script of the page is put into it as it is compiled: it can load nothing.',
      severity: 'error',
      from: { path: '(^|/)src/page/' },
      to: {},
    },
    {
      name: 'nobody-needs-page',
      comment: 'The script is read as a text; what imports it would run it.',
      severity: 'error',
      from: { path: '(^|/)src/', pathNot: '(^|/)src/page/' },
      to: { path: '(^|/)src/page/' },
    },
    {
      name: 'library-is-pure',
      comment: 'What `import … from "roundsman"` gives must run in a page.',
      severity: 'error',
      from: { path: '(^|/)src/index\\.ts$' },
      to: { path: '(^|/)src/', pathNot: '(^|/)src/(core|tables|workbook)/' },
    },
  ],
  options: {
    doNotFollow: { path: 'node_modules' },
    tsPreCompilationDeps: true,
    tsConfig: { fileName: 'tsconfig.json' },
    enhancedResolveOptions: {
      exportsFields: ['exports'],
      conditionNames: ['import', 'node', 'default', 'types'],
    },
  },
};

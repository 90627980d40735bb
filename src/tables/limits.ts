/** The sizes up to which tables are read; anything beyond is refused with a message. */
export const tableLimits = {
  /** Largest size of one table, in bytes. */
  bytesPerTable: 8 * 1024 * 1024,
  rowsPerTable: 200_000,
  stations: 500,
  parts: 200,
  /** Unlike elements in one file of readings. */
  timedElements: 1000,
  /** Jobs that setups.csv names at one machine. */
  jobsPerMachine: 200,
  /** Jobs of one week in jobs.csv. */
  jobs: 200,
  /** Longest name, in characters. */
  nameCharacters: 64,
  /** Largest amount of a number, and the smallest that is not zero. */
  largestNumber: 1e12,
  smallestNumber: 1e-9,
  /** Complaints of one code in one column of a table that are printed one by one; the rest are counted. */
  complaintsAlike: 100,
  /** Pairs of stations without a robot time that are named; the rest are counted. */
  pairsNamed: 20,
  /** Lines that one quoted cell may span. */
  linesPerRecord: 50,
} as const;

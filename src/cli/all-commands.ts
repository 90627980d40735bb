/** Every command, in the order of the help, with what the help of the program says of it; its file is read when it runs. */
import type { CommandBody, CommandHead, CommandSpec } from './command-spec.js';

interface Command extends CommandHead {
  readonly load: () => Promise<CommandBody>;
}

/** What a folder without a command asks for. */
export const BRIEF = 'brief';

export const allCommands: readonly Command[] = [
  {
    name: 'init',
    usage: '<folder>',
    summary: 'write a starter folder or workbook: every table, filled in and explained, ready to run',
    load: async () => (await import('./commands/init.js')).initCommand,
  },
  {
    name: 'check',
    usage: '<folder>',
    summary: 'read all tables of a cell and list every error with file, line and fix',
    load: async () => (await import('./commands/check.js')).checkCommand,
  },
  {
    name: BRIEF,
    usage: '<folder>',
    summary: 'answer the five questions in short; the same as naming the folder without a command',
    load: async () => (await import('./commands/brief.js')).briefCommand,
  },
  {
    name: 'schedule',
    usage: '<folder>',
    summary: 'find the best repeating sequence of the robot, who waits for whom, and parts per hour',
    load: async () => (await import('./commands/schedule.js')).scheduleCommand,
  },
  {
    name: 'size',
    usage: '[folder]',
    summary: 'find how many machines the robot can tend, machine by machine',
    load: async () => (await import('./commands/size.js')).sizeCommand,
  },
  {
    name: 'simulate',
    usage: '<folder>',
    summary: 'run the cell with its stops, variation and people: parts per shift, losses, best dispatch rule',
    load: async () => (await import('./commands/simulate.js')).simulateCommand,
  },
  {
    name: 'shifts',
    usage: '<folder>',
    summary: 'run the best sequence through each shift pattern: parts per shift, losses, labour',
    load: async () => (await import('./commands/shifts.js')).shiftsCommand,
  },
  {
    name: 'compare',
    usage: '<folders...>',
    summary: 'set two or more cells side by side, with the differences on the same random numbers',
    load: async () => (await import('./commands/compare.js')).compareCommand,
  },
  {
    name: 'mix',
    usage: '<folder>',
    summary:
      'plan the parts of a week over machines, robot and people: what to make, which hours are the bottleneck',
    load: async () => (await import('./commands/mix.js')).mixCommand,
  },
  {
    name: 'jobs',
    usage: '<folder>',
    summary: 'plan the jobs of a week over machines and shifts, with the changeovers between them',
    load: async () => (await import('./commands/jobs.js')).jobsCommand,
  },
  {
    name: 'sweep',
    usage: '[folder]',
    summary: 'work out any figure against one or two inputs, as a table and as CSV',
    load: async () => (await import('./commands/sweep.js')).sweepCommand,
  },
  {
    name: 'costcase',
    usage: '<folder>',
    summary: 'compare interface boxes that stay on the machines with moving one harness',
    load: async () => (await import('./commands/costcase.js')).costcaseCommand,
  },
  {
    name: 'invest',
    usage: '<folders...>',
    summary: 'weigh cells against the one that is there as investments: parts, money, payback, present value',
    load: async () => (await import('./commands/invest.js')).investCommand,
  },
  {
    name: 'io',
    usage: '<folder>',
    summary: 'count input and output points, boxes, supply current and cable losses of each machine',
    load: async () => (await import('./commands/io.js')).ioCommand,
  },
  {
    name: 'readings',
    usage: '<file> [folder]',
    summary: 'turn stopwatch readings into times, how sure they are, distributions, and rows for the tables',
    load: async () => (await import('./commands/readings.js')).readingsCommand,
  },
  {
    name: 'report',
    usage: '<folders...>',
    summary:
      'write everything about a cell as one page that opens and prints anywhere, with its tables beside it',
    load: async () => (await import('./commands/report.js')).reportCommand,
  },
  {
    name: 'page',
    usage: '[folder]',
    summary:
      'write one page on which the cell can be changed and its answers seen at once; it needs no network',
    load: async () => (await import('./commands/page.js')).pageCommand,
  },
  {
    name: 'log',
    usage: '<file> [folder]',
    summary:
      'read a log of signals: cycles, waits for the robot, stops, parts, and what is wrong with the log',
    load: async () => (await import('./commands/log.js')).logCommand,
  },
  {
    name: 'cautions',
    usage: '[command]',
    summary: 'print the cautions in full, each with its standard; those of one command, or all',
    load: async () => (await import('./commands/cautions.js')).cautionsCommand,
  },
  {
    name: 'setups',
    usage: '<folder>',
    summary: 'put the jobs of each machine in the order that needs the fewest set-up minutes',
    load: async () => (await import('./commands/setups.js')).setupsCommand,
  },
];

export async function loadCommand({ load, ...head }: Command): Promise<CommandSpec> {
  return { ...head, ...(await load()) };
}

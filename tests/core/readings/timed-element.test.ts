// What the name of a timed element says.
import { describe, expect, test } from 'vitest';
import { readElementName } from '../../../src/core/readings/timed-element.js';
import { readCell } from '../../../src/tables/read-cell.js';
import { soundTables } from '../../tables/sound-tables.js';

const cell = readCell(soundTables);
const timed = (name: string) => readElementName(name, null).timed;

describe('without a cell', () => {
  test.each([
    ['mill_1 cycle', { kind: 'station', station: 'mill_1', what: 'cycle', part: null }],
    ['mill_1 load cap', { kind: 'station', station: 'mill_1', what: 'load', part: 'cap' }],
    ['old lathe pick big cap', { kind: 'station', station: 'old lathe', what: 'unload', part: 'big cap' }],
    ['done place', { kind: 'station', station: 'done', what: 'load', part: null }],
    ['mill_1 ready', { kind: 'station', station: 'mill_1', what: 'ready', part: null }],
    ['travel rack mill_1', { kind: 'travel', from: 'rack', to: 'mill_1', loaded: false }],
    ['travel rack mill_1 loaded', { kind: 'travel', from: 'rack', to: 'mill_1', loaded: true }],
    ['travel rack mill_1 empty', { kind: 'travel', from: 'rack', to: 'mill_1', loaded: false }],
    ['index', { kind: 'index' }],
  ])('%s', (name, expected) => {
    expect(timed(name)).toEqual(expected);
  });

  test.each(['deburr', 'cycle', 'mill_1 Cycle', 'travel rack', 'travel'])('%s says nothing', (name) => {
    expect(readElementName(name, null)).toEqual({ timed: null, problem: { what: 'form', name } });
  });
});

describe('with a cell its names part the words', () => {
  const named = {
    ...cell,
    stations: ['load cell', 'rack', 'big mill', 'travel'].map((name) => ({ ...cell.stations[0]!, name })),
    routes: [{ part: 'load ring', steps: [] }],
  };
  test.each([
    ['load cell load', { kind: 'station', station: 'load cell', what: 'load', part: null }],
    ['big mill cycle load ring', { kind: 'station', station: 'big mill', what: 'cycle', part: 'load ring' }],
    ['travel load cell big mill', { kind: 'travel', from: 'load cell', to: 'big mill', loaded: false }],
    ['travel big mill rack loaded', { kind: 'travel', from: 'big mill', to: 'rack', loaded: true }],
    ['travel load', { kind: 'station', station: 'travel', what: 'load', part: null }],
  ])('%s', (name, expected) => {
    expect(readElementName(name, named).timed).toEqual(expected);
  });

  test.each([
    ['mil_1 cycle', { what: 'station', name: 'mil_1' }],
    ['mill_1 cycle cup', { what: 'part', name: 'cup' }],
    ['travel rack mil_1', { what: 'station', name: 'mil_1' }],
    ['deburr', { what: 'form', name: 'deburr' }],
  ])('%s names what is not there', (name, problem) => {
    expect(readElementName(name, cell)).toEqual({ timed: null, problem });
  });
});

// Which pick takes which part, counted on the fingers: first in, first out, over the end of the period, in batches.
import { describe, expect, it } from 'vitest';
import { eachFifoLink } from '../../../../src/core/schedule/evaluate/fifo-links.js';

type Link = { place: number; pick: number; lag: number; lastOfBatch: boolean };

function fifoLinks(visits: number, inside: number, batch: number, loaded: number): Link[] {
  const links: Link[] = [];
  eachFifoLink(visits, inside, batch, loaded, 'all', (place, pick, lag, lastOfBatch) => {
    links.push({ place, pick, lag, lastOfBatch });
  });
  return links;
}

const link = (place: number, pick: number, lag: number, lastOfBatch = true) => ({
  place,
  pick,
  lag,
  lastOfBatch,
});

describe('one part at a time', () => {
  it('leaves by the pick after its place, or as many picks later as parts are there before it', () => {
    expect(fifoLinks(1, 0, 1, 0)).toEqual([link(0, 0, 0)]);
    expect(fifoLinks(1, 1, 1, 0)).toEqual([link(0, 0, 1)]);
    expect(fifoLinks(1, 3, 1, 0)).toEqual([link(0, 0, 3)]);
    expect(fifoLinks(2, 1, 1, 0)).toEqual([link(0, 1, 0), link(1, 0, 1)]);
    expect(fifoLinks(3, 2, 1, 0)).toEqual([link(0, 2, 0), link(1, 0, 1), link(2, 1, 1)]);
  });
});

describe('a batch of two', () => {
  it('that is loaded whole in the period: each pick waits for both', () => {
    const both = (pick: number) => [link(0, pick, 0, false), link(1, pick, 0)];
    expect(fifoLinks(2, 0, 2, 0)).toEqual([...both(0), ...both(1)]);
  });

  it('that lies there from the period before', () => {
    const both = (pick: number) => [link(0, pick, 1, false), link(1, pick, 1)];
    expect(fifoLinks(2, 2, 2, 0)).toEqual([...both(0), ...both(1)]);
  });

  it('of which one part is in before the period starts', () => {
    // The first place of a period fills up the batch of which the second place of the period before was the first part.
    expect(fifoLinks(2, 1, 2, 1)).toEqual([
      link(1, 1, 1, false),
      link(0, 1, 0),
      link(1, 0, 1, false),
      link(0, 0, 0),
    ]);
  });
});

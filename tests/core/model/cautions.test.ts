import { describe, expect, it } from 'vitest';
import { cautions, cautionsFor } from '../../../src/core/model/cautions.js';

describe('cautions', () => {
  it('each has a number of its own, words, a reference and a place where it is shown', () => {
    expect(cautions.map((c) => c.id)).toEqual(
      Array.from({ length: 18 }, (_, k) => `C${String(k + 1).padStart(2, '0')}`),
    );
    for (const caution of cautions) {
      expect(caution.text.length, caution.id).toBeGreaterThan(40);
      expect(caution.reference, caution.id).not.toBe('');
      expect(caution.commands.length, caution.id).toBeGreaterThan(0);
      expect(caution.commands, caution.id).toContain('report');
    }
  });
  it('a command gets its own: the cost case warns of wiring mix-ups and tax, a schedule of speed near people', () => {
    const ids = (command: string) => cautionsFor(command).map((c) => c.id);
    expect(ids('costcase')).toEqual(expect.arrayContaining(['C01', 'C03', 'C09', 'C16', 'C18']));
    expect(ids('io')).toContain('C03');
    expect(ids('schedule')).toContain('C07');
    expect(ids('schedule')).not.toContain('C18');
    expect(ids('init')).toEqual([]);
  });
});

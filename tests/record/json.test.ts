/** What columns of the record hold is looked at before it is believed. */
import { describe, expect, it } from 'vitest';
import { z } from 'zod';
import { fromColumn, numbersOf } from '../../src/record/json.ts';
import { doubtSchema, type Doubt } from '../../src/record/quality/doubt.ts';
import { ThawlineError } from '../../src/units/index.ts';

const refused = (read: () => unknown): ThawlineError => {
  try {
    read();
  } catch (error) {
    if (error instanceof ThawlineError) return error;
  }
  throw new Error('it was believed');
};

describe('a column of JSON', () => {
  it('gives what was written', () => {
    const doubts: Doubt[] = [
      { code: 'doubt.stuck', hours: 9 },
      { code: 'doubt.datumJump', stepM: null },
    ];
    for (const doubt of doubts)
      expect(fromColumn(JSON.stringify(doubt), doubtSchema, 'doubt')).toEqual(doubt);
    expect(numbersOf('1,2.5,-3e-2', 'value')).toEqual([1, 2.5, -0.03]);
    expect(numbersOf('', 'value')).toEqual([]);
  });

  it.each(['{"code":"doubt.stuck"}', '{"code":"doubt.other"}', '"text"', '{', ''])(
    'is refused by its name when it holds something else: %j',
    (text) => {
      const error = refused(() => fromColumn(text, doubtSchema, 'doubt'));
      expect(error.code).toBe('record');
      expect(error.message).toMatch(/"doubt".*Restore the last copy/);
    },
  );

  it.each(['1,null', '1,"2"', '1,,2', '[1]', '1],[2'])('of numbers holds nothing else: %j', (line) => {
    expect(refused(() => numbersOf(line, 'value')).code).toBe('record');
  });

  it('says nothing of what stood in it', () => {
    const { message } = refused(() => fromColumn('"ann@example.org"', z.array(z.string()), 'qualifiers'));
    expect(message).not.toContain('ann');
  });
});

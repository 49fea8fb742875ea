/** Days of the week as the command line takes them; ISO 8601 numbers, Monday is 1. */
import { describe, expect, it } from 'vitest';
import { parseDays } from '../../src/cli/readersFile.ts';

describe('--days', () => {
  it.each([
    ['1-7', [1, 2, 3, 4, 5, 6, 7]],
    ['6,7', [6, 7]],
    ['5, 1-2,2', [1, 2, 5]],
  ])('reads %s', (text, days) => {
    expect(parseDays(text)).toEqual(days);
  });

  it.each(['0', '8', 'mon', '1-', '', '1--3'])('refuses %j with what it expects', (text) => {
    expect(() => parseDays(text)).toThrow(/1 is Monday/);
  });
});

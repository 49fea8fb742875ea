import { parse } from 'yaml';
import { describe, expect, it } from 'vitest';
import { understand, whatIfSchema } from '../../src/advice/whatIf/index.ts';
import { facesLine } from '../../src/cli/whatIfFaces.ts';
import { loadRules } from '../../src/config/rules.ts';

const rules = loadRules();
const line = (yaml: string): string => {
  const form = whatIfSchema.parse(parse(yaml));
  return facesLine(form, understand(form), rules.text);
};
const DAY = `
date: 2026-04-10
fishing: { from: '06:00', to: '18:00' }
hours:
  - { at: '06:00', wind: 2 mph, windFrom: SW }
  - { at: '11:00', wind: 14 mph, windFrom: SW }
  - { at: '16:00', wind: 3 mph, windFrom: SW }
`;

describe('a what-if that says which way places face', () => {
  it('is told where the wind stands, from which side, when, and who lies out of it', () => {
    expect(line(`${DAY}places: { faces: { main_point: SW, pocket: NE } }`)).toBe(
      'Wind from the southwest stands on main-lake point from 11:00 to 16:00; out of it: pocket (open to the northeast).',
    );
  });
  it('is told nothing without faces, without a direction, or in calm air', () => {
    expect(line(DAY)).toBe('');
    expect(line(`${DAY.replaceAll(', windFrom: SW', '')}places: { faces: { main_point: SW } }`)).toBe('');
    expect(line(`${DAY.replace('14 mph', '3 mph')}places: { faces: { main_point: SW } }`)).toBe('');
  });
});

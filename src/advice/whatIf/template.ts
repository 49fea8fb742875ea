import { z } from 'zod';
import { exampleOf, kindOf } from './quantity.ts';
import { whatIfSchema } from './schema.ts';

const EXAMPLES: Readonly<Record<string, string>> = {
  schema: 'thawline-conditions/1',
  units: 'us',
  date: '2026-03-06',
  time: 'morning',
  species: 'mixed',
  waterBody: 'highland-reservoir',
  bank: 'steep',
  sky: 'overcast',
  clarity: '4 ft',
  clearColdNightSince: 'false',
  generation: 'off',
  gust: '18 mph',
  places: '{ has: [dock], hasNot: [bluff] }',
  hours:
    '[{ at: "06:00", air: 45 F, cloud: 20 %, wind: 3 mph, windFrom: SW }, { at: "11:00", wind: 12 mph }]',
  from: '"05:30"',
  to: '"19:00"',
  dawn: '"06:02"',
  rise: '"06:28"',
  noon: '"12:20"',
  set: '"18:12"',
  dusk: '"18:38"',
};

function describe(schema: z.ZodType): string {
  const inner = schema instanceof z.ZodOptional ? (schema.def.innerType as z.ZodType) : schema;
  const choices = inner instanceof z.ZodEnum ? ` (${inner.options.join(', ')})` : '';
  return `${inner.description ?? ''}${choices}`;
}

function line(name: string, schema: z.ZodType, indent: string): string {
  const kind = kindOf(schema);
  const example = EXAMPLES[name] ?? (kind === undefined ? '' : exampleOf(kind));
  return `${indent}${name}: ${example}`.padEnd(42) + ` # ${describe(schema)}`;
}

/** A commented form with every field; each line is off until its mark is taken away. */
export function whatIfTemplate(): string {
  const rows = [
    '# Conditions for "thawline what-if". Take away the # in front of what you know and put in your numbers.',
    '# What you leave out counts as unknown. Numbers carry a unit; or set "units" and write bare numbers.',
    'schema: thawline-conditions/1',
  ];
  const fields = Object.entries(whatIfSchema.shape as Record<string, z.ZodType>);
  for (const [name, schema] of fields.filter(([field]) => field !== 'schema')) {
    const inner = schema instanceof z.ZodOptional ? schema.def.innerType : schema;
    if (inner instanceof z.ZodObject) {
      rows.push(`# ${name}:`);
      const fieldsOfGroup: Record<string, z.ZodType> = inner.shape;
      for (const [key, field] of Object.entries(fieldsOfGroup)) {
        rows.push(line(key, field, '#   '));
      }
    } else rows.push(line(name, schema, '# '));
  }
  return `${rows.join('\n')}\n`;
}

import { ThawlineError } from '../../units/index.ts';
import { readWritten } from './quantity.ts';
import { FIELD_KINDS, type WhatIfForm } from './schema.ts';

/** Number of looks along a varied field. */
const STEPS = 9;

/** The form with one field at one value along the way. */
export interface VariedStep {
  /** The value as written, with the unit of the command. */
  readonly written: string;
  readonly form: WhatIfForm;
}

/**
 * The same form nine times, with one field moving evenly from one value to another.
 *
 * @param form a checked form
 * @param text `field=from..to`, e.g. `water.main=42 F..58 F`; a unit behind the second number serves both
 * @throws ThawlineError `usage` when the field is unknown or a value cannot be read
 */
export function varied(form: WhatIfForm, text: string): VariedStep[] {
  const [named = '', ...values] = text.split('=').map((part) => part.trim());
  const [first, last, ...more] =
    values.length === 1
      ? values
          .join('')
          .split('..')
          .map((part) => part.trim())
      : [];
  const field = /^[\w.]+$/.test(named) && more.length === 0 ? named : undefined;
  const kind = field === undefined ? undefined : FIELD_KINDS.get(field);
  if (field === undefined || !first || !last || kind === undefined) {
    throw new ThawlineError(
      'usage',
      `--vary: found "${text}", expected field=from..to, for example "water.main=42 F..58 F"; fields: ${[...FIELD_KINDS.keys()].join(', ')}.`,
    );
  }
  const [from, fromUnit] = numberAndUnit(first);
  const [to, toUnit] = numberAndUnit(last);
  const unit = toUnit ?? fromUnit;
  if (Number.isNaN(from) || Number.isNaN(to) || (fromUnit !== undefined && fromUnit !== unit)) {
    throw new ThawlineError('usage', `--vary: "${first}..${last}" needs two numbers in one unit.`);
  }
  return Array.from({ length: STEPS }, (_, step) => {
    const number = Math.round((from + ((to - from) * step) / (STEPS - 1)) * 1000) / 1000;
    const written = unit === undefined ? String(number) : `${number} ${unit}`;
    const read = readWritten(written, kind, form.units);
    if ('problem' in read) throw new ThawlineError('usage', `--vary ${field}: ${read.problem}.`);
    return { written, form: withField(form, field, unit === undefined ? number : written) };
  });
}

function numberAndUnit(text: string): [number, string | undefined] {
  const match = /^([+-]?(?:\d+(?:\.\d*)?|\.\d+))\s*([^\s\d.].*)?$/.exec(text);
  return [Number(match?.[1] ?? NaN), match?.[2]];
}

function withField(form: WhatIfForm, field: string, value: string | number): WhatIfForm {
  const [group, key] = field.split('.');
  if (group === undefined) return form;
  if (key === undefined) return { ...form, [group]: value };
  const inner = (form as Record<string, unknown>)[group];
  return { ...form, [group]: { ...(inner as object | undefined), [key]: value } };
}

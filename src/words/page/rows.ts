import { z } from 'zod';
import type { ConditionFacts } from '../../briefing/index.ts';
import type { Messages } from '../en/page.ts';
import type { PageRow } from './schema.ts';
import type { Teller } from './teller.ts';

/** What a figure of the table is called. */
export function rowLabel(signal: ConditionFacts['id'], m: Messages): string {
  const labels: Readonly<Partial<Record<ConditionFacts['id'], string>>> = m.rows;
  return labels[signal] ?? signal;
}

const saidFigure = (figure: ConditionFacts['now'], tell: Teller): PageRow['now'] =>
  figure && {
    ...figure,
    source: typeof figure.source === 'string' ? figure.source : tell(figure.source),
  };

const WATER_CHANGE = z.looseObject({
  code: z.literal('water.change'),
  spans: z.array(z.looseObject({ days: z.number() })),
});

/** A note beside a front, which has told the week's change of the lake. */
function noteBesideFront(note: ConditionFacts['notes'][number], tell: Teller): string {
  const change = WATER_CHANGE.safeParse(note);
  if (!change.success) return tell(note);
  const spans = change.data.spans.filter(({ days }) => days !== 7);
  const shorter = { ...change.data, spans };
  return spans.length === 0 ? '' : tell(shorter);
}

export function saidRow({ guess, notes, river, ...row }: ConditionFacts, m: Messages, tell: Teller): PageRow {
  const note = notes.map(tell).filter(Boolean).join(' ');
  const beside = notes
    .map((fact) => noteBesideFront(fact, tell))
    .filter(Boolean)
    .join(' ');
  return {
    ...row,
    now: saidFigure(row.now, tell),
    last: saidFigure(row.last, tell),
    label: river === true ? m.riverFlow : rowLabel(row.id, m),
    ...(guess === undefined ? {} : { words: m.clarity.guess(m.clarity.class[guess]) }),
    ...(note === '' ? {} : { note }),
    ...(beside === note ? {} : { noteBesideFront: beside }),
  };
}

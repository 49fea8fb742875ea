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

export function saidRow({ guess, notes, river, ...row }: ConditionFacts, m: Messages, tell: Teller): PageRow {
  const note = notes.map(tell).filter(Boolean).join(' ');
  return {
    ...row,
    now: saidFigure(row.now, tell),
    last: saidFigure(row.last, tell),
    label: river === true ? m.riverFlow : rowLabel(row.id, m),
    ...(guess === undefined ? {} : { words: m.clarity.guess(m.clarity.class[guess]) }),
    ...(note === '' ? {} : { note }),
  };
}

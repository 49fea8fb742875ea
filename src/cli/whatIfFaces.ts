/** Wind of a what-if on the kinds of place that the form says face a side. */
import type { Understood, WhatIfForm } from '../advice/whatIf/index.ts';
import type { RuleText } from '../config/index.ts';
import { facesOf } from '../schedule/index.ts';
import { HOUR_MS } from '../units/time/index.ts';
import { windOnFaces } from '../signals/index.ts';
import { placeNamed, say, wordsFor } from '../words/index.ts';

/** One sentence with side, hours and who lies out of it; '' where the form gives no faces, or no wind with a direction. */
export function facesLine(form: WhatIfForm, { conditions, day }: Understood, text: RuleText): string {
  const named = [...facesOf(form)].map(([place, facesDeg]) => ({
    name: placeNamed(text, place),
    facesDeg,
  }));
  if (named.length === 0) return '';
  const { fishing } = day;
  const hours = day.hours.flatMap(({ fromMs, toMs, windMs, windFromDeg }) => {
    if (windMs === undefined || windFromDeg === undefined) return [];
    const first = Math.max(fromMs, fishing?.fromMs ?? -Infinity);
    const last = Math.min(toMs, fishing?.toMs ?? Infinity);
    const count = Math.max(0, Math.round((last - first) / HOUR_MS));
    return Array.from({ length: count }, (_, i) => ({
      atMs: first + i * HOUR_MS,
      windMs,
      windDirDeg: windFromDeg,
    }));
  });
  const fact = windOnFaces(named, hours, conditions.zone);
  return fact === null ? '' : say(wordsFor('en').lake.fact, fact);
}

/** A season as one page that needs nothing else: ribbons over the calendar, one column a day. Pure. */
import type { SeasonDay } from '../schedule/replay/index.ts';

const DAY_PX = 8;
const LEFT_PX = 96;
const RIBBON_PX = 64;
const INK = '#1a1a1a';
const BLUE = '#005A8C';
const VERMILLION = '#A84300';

const escape = (text: string): string =>
  text.replace(/[&<>"]/g, (c) => ({ '&': '&amp;', '<': '&lt;', '>': '&gt;', '"': '&quot;' })[c] ?? c);
const x = (index: number): number => LEFT_PX + index * DAY_PX;

function label(name: string, unit: string): string {
  return `<text x="0" y="20" class="name">${escape(name)}</text><text x="0" y="36" class="unit">${escape(unit)}</text>`;
}

/** A line over the days, with its band where it has one, and its lowest and highest value in numbers. */
function lineRibbon(
  days: readonly SeasonDay[],
  name: string,
  unit: string,
  pick: (day: SeasonDay) => { value: number | null; low?: number | null; high?: number | null },
): string {
  const values = days.map(pick);
  const all = values
    .flatMap(({ value, low, high }) => [value, low, high])
    .filter((v): v is number => typeof v === 'number');
  if (all.length === 0)
    return `${label(name, unit)}<text x="${LEFT_PX}" y="30" class="unit">not known</text>`;
  const [low, high] = [Math.min(...all), Math.max(...all)];
  const span = high - low || 1;
  const y = (value: number): number => 4 + (1 - (value - low) / span) * (RIBBON_PX - 12);
  const parts: string[] = [];
  for (const [i, { value, low: from, high: to }] of values.entries()) {
    if (typeof from === 'number' && typeof to === 'number')
      parts.push(
        `<rect x="${x(i)}" y="${y(to).toFixed(1)}" width="${DAY_PX}" height="${Math.max(1, y(from) - y(to)).toFixed(1)}" fill="${BLUE}" opacity=".18"/>`,
      );
    const next = values[i + 1]?.value;
    if (typeof value === 'number' && typeof next === 'number')
      parts.push(
        `<line x1="${x(i) + DAY_PX / 2}" y1="${y(value).toFixed(1)}" x2="${x(i + 1) + DAY_PX / 2}" y2="${y(next).toFixed(1)}" stroke="${BLUE}" stroke-width="1.5"/>`,
      );
  }
  const end = x(days.length) + 4;
  parts.push(
    `<text x="${end}" y="12" class="unit">${high.toFixed(1)}</text><text x="${end}" y="${RIBBON_PX - 4}" class="unit">${low.toFixed(1)}</text>`,
  );
  return label(name, unit) + parts.join('');
}

/** Bars of the level of danger; what keeps boats ashore is not only a colour but the highest bar. */
function dangerRibbon(days: readonly SeasonDay[]): string {
  const bars = days.map(({ danger, hazards, date }, i) => {
    const height = danger * 13;
    return `<rect x="${x(i) + 1}" y="${RIBBON_PX - 8 - height}" width="${DAY_PX - 2}" height="${height}" fill="${danger >= 3 ? VERMILLION : INK}"><title>${date}: level ${danger} ${escape(hazards.join(', '))}</title></rect>`;
  });
  return label('Danger', 'level 1 to 4') + bars.join('');
}

/** Days on end with the same word, as one box with its name. */
function wordRibbon(days: readonly SeasonDay[], name: string, pick: (day: SeasonDay) => string): string {
  const runs: { word: string; from: number; to: number }[] = [];
  for (const [i, day] of days.entries()) {
    const word = pick(day);
    const last = runs.at(-1);
    if (last?.word === word) last.to = i;
    else runs.push({ word, from: i, to: i });
  }
  const boxes = runs.flatMap(({ word, from, to }) => {
    if (word === '') return [];
    const width = x(to + 1) - x(from);
    const fits = word.length * 6 < width;
    return [
      `<rect x="${x(from)}" y="14" width="${width}" height="28" fill="none" stroke="${INK}"><title>${escape(word)}, ${days[from]?.date ?? ''} to ${days[to]?.date ?? ''}</title></rect>`,
      ...(fits ? [`<text x="${x(from) + 4}" y="32" class="word">${escape(word)}</text>`] : []),
    ];
  });
  return label(name, '') + boxes.join('');
}

function calendar(days: readonly SeasonDay[]): string {
  return days
    .flatMap(({ date }, i) =>
      date.endsWith('-01') || i === 0
        ? [
            `<line x1="${x(i)}" y1="0" x2="${x(i)}" y2="14" stroke="${INK}"/><text x="${x(i) + 3}" y="12" class="unit">${date.slice(0, 7)}</text>`,
          ]
        : [],
    )
    .join('');
}

/** Sentences on what the mornings rest on. */
export function basisLines(days: readonly SeasonDay[]): string[] {
  const count = (basis: SeasonDay['forecast']): number =>
    days.filter(({ forecast }) => forecast === basis).length;
  const lines = [`${days.length} mornings: ${count('kept')} with the forecast that was out then.`];
  if (count('archive') > 0)
    lines.push(
      `${count('archive')} mornings without a kept forecast: the weather that came stands in for it, so they knew more than anybody could.`,
    );
  if (count('none') > 0) lines.push(`${count('none')} mornings without any forecast.`);
  return lines;
}

export function seasonPage(title: string, days: readonly SeasonDay[], notes: readonly string[]): string {
  const ribbons = [
    lineRibbon(days, 'Water', 'degC, 80 %', (day) => ({
      value: day.waterC,
      low: day.waterLowC,
      high: day.waterHighC,
    })),
    lineRibbon(days, 'Level', 'm', (day) => ({ value: day.levelM })),
    dangerRibbon(days),
    wordRibbon(days, 'Phase', (day) => day.phase),
    wordRibbon(days, 'First place', (day) => day.first),
    wordRibbon(days, 'Second place', (day) => day.second),
  ];
  const width = x(days.length) + 60;
  const height = 20 + ribbons.length * (RIBBON_PX + 8);
  const drawn = ribbons
    .map(
      (ribbon, i) =>
        `<g transform="translate(0 ${20 + i * (RIBBON_PX + 8)})">${ribbon}<line x1="0" y1="${RIBBON_PX}" x2="${width}" y2="${RIBBON_PX}" stroke="#ccc"/></g>`,
    )
    .join('\n');
  const said = [...basisLines(days), ...notes].map((line) => `<p>${escape(line)}</p>`).join('\n');
  return `<!doctype html>
<html lang="en"><head><meta charset="utf-8"><meta name="viewport" content="width=device-width"><title>${escape(title)}</title>
<style>body{font:14px/1.4 system-ui,sans-serif;color:${INK};margin:1rem}svg{display:block}.name{font-weight:600;font-size:13px}.unit{font-size:11px;fill:#555}.word{font-size:11px}.scroll{overflow-x:auto}</style></head>
<body><h1>${escape(title)}</h1>
${said}
<div class="scroll"><svg width="${width}" height="${height}" viewBox="0 0 ${width} ${height}" role="img" aria-label="${escape(title)}: ribbons over the calendar">${calendar(days)}
${drawn}</svg></div>
<p>General information on past mornings, made anew; no decision rests on it. Local rules and official warnings come first.</p>
</body></html>
`;
}

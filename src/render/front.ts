/** The first screen of the page: where, when, with what, what hurts, and when to be off the water. */
import type { BriefingPage, Front, Words } from '../words/index.ts';
import { escapeHtml } from './escape.ts';
import { unbroken } from './present.ts';
import { COLOUR, FRONT } from './style.ts';

/** A reader's other lakes are put here. Repeated in delivery, as the mark of the links is. */
export const OTHERS_MARK = '<!--other-lakes-->';

const say = (text: string): string => escapeHtml(unbroken(text));

/** Four bars, filled up to the level; told without colour by their number and by the words beside them. */
function bars(level: number): string {
  const colour = level >= 3 ? COLOUR.vermillion : level === 1 ? COLOUR.slate : COLOUR.ink;
  const cells = [12, 17, 22, 27].map((height, i) => {
    const filled = i < level;
    return (
      `<td style="vertical-align:bottom;padding:0 3px 0 0"><div class="${filled ? 'mark' : 'frame'}" ` +
      `style="width:8px;height:${height}px;border:1px solid ${colour};font-size:0;${filled ? `background-color:${colour}` : ''}"></div></td>`
    );
  });
  return `<table role="presentation" aria-hidden="true" style="border-collapse:collapse"><tr>${cells.join('')}</tr></table>`;
}

function danger(front: Front, level: 1 | 2 | 3 | 4): string {
  const tone = level >= 3 ? 'warm' : level === 1 ? 'slate' : 'ink';
  const word = `<strong class="${level === 4 ? 'panel' : tone}" style="${FRONT.danger[level]}">${say(front.danger)}</strong>`;
  const lines = front.hazards.map((line) => `<span style="${FRONT.hazard}">${say(line)}</span>`).join('');
  return (
    `<table role="presentation" style="${FRONT.dangerBox[level]}"><tr><td style="width:60px;vertical-align:top;padding:9px 0">${bars(level)}</td>` +
    `<td style="padding:6px 0;vertical-align:top">${word}${lines}</td></tr></table>`
  );
}

function plan(front: Front, heading: string, grave: boolean): string {
  const rows = front.plan.map(
    ({ when, place, what }) =>
      `<tr><th scope="row" style="${grave ? FRONT.timeSmall : FRONT.time}">${say(when)}</th>` +
      `<td style="${grave ? FRONT.blockSmall : FRONT.block}"><strong style="${grave ? FRONT.placeSmall : FRONT.place}">${say(place)}</strong><br />${say(what)}</td></tr>`,
  );
  const table =
    rows.length === 0
      ? ''
      : `<table style="width:100%;border-collapse:collapse" aria-label="${escapeHtml(heading)}">${rows.join('')}</table>`;
  const beIn = front.beIn === '' ? '' : `<p style="${FRONT.beIn}">${say(front.beIn)}</p>`;
  return `<h2 class="slate" style="${FRONT.h2}">${say(heading)}</h2>${table}${beIn}`;
}

function water(front: Front): string {
  const cells = front.water.map(
    ({ value, what }) =>
      `<td style="${FRONT.water}">${value === '' ? '' : `<strong style="font-size:16px">${say(value)}</strong> `}${say(what)}</td>`,
  );
  const rows: string[] = [];
  for (let i = 0; i < cells.length; i += 2)
    rows.push(`<tr>${cells[i] ?? ''}${cells[i + 1] ?? '<td></td>'}</tr>`);
  return `<table role="presentation" style="${FRONT.waterBox}">${rows.join('')}</table>`;
}

export function frontPart(doc: BriefingPage, front: Front, words: Words): string {
  const grave = doc.safety.level >= 3;
  const marks = doc.marks.map((mark) => `<p class="warm" style="${FRONT.mark}">${say(mark)}</p>`).join('');
  const arm = doc.lake.arm ?? '';
  const last = [front.changed, front.sure].filter(Boolean).map(say).join('<br />');
  return [
    OTHERS_MARK,
    marks,
    `<table role="presentation" style="width:100%;border-collapse:collapse"><tr>` +
      `<td style="padding:0"><h1 style="${FRONT.h1}">${say(doc.lake.name)}</h1></td>` +
      `<td class="slate" style="${FRONT.date}">${say(front.date).replace(/, /, ',<br />')}${arm === '' ? '' : `<br />${say(arm)}`}</td></tr></table>`,
    danger(front, doc.safety.level),
    plan(front, words.front.headings.plan, grave),
    water(front),
    last === '' ? '' : `<p class="slate" style="${FRONT.last}">${last}</p>`,
  ].join('');
}

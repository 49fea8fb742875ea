import { convert } from 'html-to-text';
import { simpleParser } from 'mailparser';
import { createTransport } from 'nodemailer';
import { describe, expect, it } from 'vitest';
import { twinSchema, type BriefingPage } from '../../src/words/index.ts';
import { renderBriefing } from '../../src/render/index.ts';
import { formatQuantity, type QuantityKind, type UnitSystem } from '../../src/units/index.ts';
import { mornings } from '../helpers/mornings.ts';

/** Every figure of the data twin as a reader of the unit system should find it, with its unit. */
function figures(doc: BriefingPage, units: UnitSystem): string[] {
  const print = (value: number, kind: QuantityKind, signed = false): string =>
    formatQuantity(value, kind, units, signed);
  const rows = doc.conditions.flatMap(({ now: figured, last, change24h, next48h, signed, words }) => {
    // What nobody measured stands in words; its number is for the rules alone.
    const now = words === undefined ? figured : null;
    return [
      ...(words === undefined ? [] : [words]),
      ...[now, last].flatMap((figure) =>
        figure === null ? [] : [print(figure.value, figure.quantity, signed)],
      ),
      ...(now?.high === undefined ? [] : [print(now.high, now.quantity, signed)]),
      ...(change24h === null ? [] : [print(change24h.value, change24h.quantity, true)]),
      ...(next48h === null ? [] : [print(next48h.high, next48h.quantity, signed)]),
    ];
  });
  const grave = doc.safety.level >= 3;
  const depths = doc.positions.map(({ depthM }) => print(depthM[1], 'depth'));
  // The page tells how to work each block of the plan; without a plan, the lures of the day.
  const blocks = doc.plan?.blocks ?? [];
  const told = blocks.length > 0 ? blocks.map(({ cast }) => cast) : doc.casts;
  const shown = doc.safety.level === 4 ? [] : grave ? told.slice(0, 1) : told;
  const casts = shown.flatMap((cast) => [
    print(cast.boatDepthM, 'depth'),
    // A lure let straight down is neither cast nor wound back.
    ...(cast.castLengthM === 0
      ? []
      : [
          // A pitch may be told as a range of depths to land in: its figure stands before "to".
          print(cast.castDepthM, 'landing').split(cast.castLengthM <= PITCH_M ? /[\s\u00a0]/ : '\n')[0] ?? '',
          print(cast.castLengthM, 'distance'),
          // Along the bank and straight up the slope are said in words.
          ...(cast.castAngleDeg > 74.9 || cast.castAngleDeg < 3.1
            ? []
            : [print(cast.castAngleDeg, 'castAngle')]),
        ]),
  ]);
  const changes = doc.whatChanged.items.flatMap(({ now, quantity }) =>
    now === null || quantity === null ? [] : [print(now, quantity).replace('-', '')],
  );
  return [...rows, ...depths, ...casts, ...(grave ? [] : changes)];
}

/** Casts up to this length are pitches, m. */
const PITCH_M = 7.7;

const flat = (text: string): string => text.replace(/\s+/g, ' ');

describe('a mail read back', () => {
  const transport = createTransport({ streamTransport: true, buffer: true });

  it.each(mornings())(
    'shows every figure of $name in text and page with its unit',
    async ({ units, document }) => {
      const rendered = await renderBriefing(document, { units, form: 'full', detail: 'web' });
      const { message } = await transport.sendMail({
        from: 'briefing@example.org',
        to: 'reader@example.org',
        subject: rendered.subject,
        text: rendered.text,
        html: rendered.html,
        attachments: [
          ...rendered.attachments,
          { filename: 'briefing.json', contentType: 'application/json', content: rendered.json },
        ],
      });
      const mail = await simpleParser(message, { skipImageLinks: true });
      expect(mail.subject).toBe(rendered.subject);
      const data = mail.attachments
        .find(({ filename }) => filename === 'briefing.json')
        ?.content.toString('utf8');
      const twin = twinSchema.parse(JSON.parse(data ?? ''));
      const text = flat(mail.text ?? '');
      const page = flat(convert(mail.html || '', { wordwrap: false }));
      const wanted = figures(twin.page, units);
      expect(wanted.length).toBeGreaterThan(document.status === 'nil' ? 0 : 10);
      for (const figure of wanted) {
        expect(text, `text lacks ${figure}`).toContain(figure);
        expect(page, `page lacks ${figure}`).toContain(figure);
      }
      expect(mail.attachments.filter(({ contentType }) => contentType === 'image/png')).toHaveLength(
        rendered.attachments.length,
      );
    },
  );
});

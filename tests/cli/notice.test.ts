/** The operator's notice: on the front with its date, gone by itself. */
import { mkdtempSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { addNoticeCommands } from '../../src/cli/notice.ts';
import { openRecord } from '../../src/record/index.ts';
import { noticesOf, putNotice } from '../../src/record/schedule/notices.ts';
import { renderBriefing } from '../../src/render/index.ts';
import { commandLine } from '../helpers/commandLine.ts';
import { sampleBriefing } from '../helpers/sampleBriefing.ts';

const folder = mkdtempSync(join(tmpdir(), 'thawline-notice-'));
const file = join(folder, 'thawline.yaml');
writeFileSync(
  file,
  `record: ${join(folder, 'r.sqlite')}\nlakes:\n  - { id: a, name: A, position: { lat: 36, lon: -92 }, zone: America/Chicago, waterBody: highland-reservoir, meanDepth: 10 m, area: 10 km2 }\n`,
);
const notice = (...words: string[]) => commandLine(addNoticeCommands, '--config', file, 'notice', ...words);

describe('thawline notice', () => {
  it('is added, listed and removed', async () => {
    const added = await notice('add', 'a', 'Ramp B is closed.', '--until', '2999-04-01');
    expect(added).toMatchObject({
      code: 0,
      out: expect.stringMatching(
        /^[0-9a-f]{6} {2}\d{4}-\d\d-\d\d to 2999-04-01: Ramp B is closed\./,
      ) as string,
    });
    const [{ id }] = JSON.parse((await notice('list', 'a', '--json')).out) as [{ id: string }];
    expect((await notice('remove', 'a', id)).out).toBe(`removed ${id}\n`);
    expect((await notice('list', 'a')).out).toBe('');
    expect((await notice('remove', 'a', id)).code).toBe(2);
  });

  it.each([
    ['a date that is none', ['add', 'a', 'x', '--until', 'soon'], /expected a date/],
    ['a date that has passed', ['add', 'a', 'x', '--until', '2020-01-01'], /has passed/],
    ['two lines', ['add', 'a', 'x\ny'], /one line/],
    ['a page', ['add', 'a', 'x'.repeat(400)], /1 to 300/],
    ['no lake', ['add', 'b', 'x'], /No lake "b"/],
  ])('refuses %s', async (_what, words, said) => {
    expect(await notice(...words)).toMatchObject({ code: 2, err: expect.stringMatching(said) as string });
  });
});

describe('a notice', () => {
  it('stands from its day to its last, and no longer', async () => {
    const record = await openRecord(':memory:');
    await putNotice(record, 'a', { id: '1', text: 'x', from: '2026-03-06', until: '2026-03-08' }, 1);
    await putNotice(record, 'ab', { id: '2', text: 'of another lake', from: '2026-03-06', until: null }, 1);
    const on = async (date: string): Promise<number> => (await noticesOf(record, 'a', date)).length;
    expect([
      await on('2026-03-05'),
      await on('2026-03-06'),
      await on('2026-03-08'),
      await on('2026-03-09'),
    ]).toEqual([0, 1, 1, 0]);
    await record.close();
  });

  it('leads the page, as it was written', async () => {
    const document = sampleBriefing({
      notices: [{ text: 'Ramp {{depth:2}} <b>closed</b>', from: '2026-03-06', until: '2026-04-01' }],
    });
    const page = await renderBriefing(document, { units: 'us', form: 'full' });
    expect(page.text).toMatch(
      /NOTICE\n {2}- Ramp \{\{depth:2\}\} <b>closed<\/b> \(Fri 6 Mar, until Wed 1 Apr\)/,
    );
    const later = sampleBriefing({
      notices: [{ text: 'Bridge work', from: '2025-12-01', until: '2027-03-10' }],
    });
    // Without its year the last day would read as that of next week.
    expect((await renderBriefing(later, { units: 'us', form: 'full' })).text).toContain(
      'Bridge work (Mon 1 Dec 2025, until Wed 10 Mar 2027)',
    );
    const [before, behind] = page.text.split('NOTICE');
    expect(before).toContain('THE DAY\n');
    expect(before).not.toContain('HOW TO WORK IT');
    expect(behind).toContain('HOW TO WORK IT');
    expect(page.html).toContain('Ramp {{depth:2}} &lt;b&gt;closed');
  });
});

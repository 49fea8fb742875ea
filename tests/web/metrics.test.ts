import { expect, it } from 'vitest';
import { site } from './kit.ts';

it('tells the state of the record as Prometheus text, whoever is asked', async () => {
  const web = await site();
  const reader = await web.reader();
  expect(reader).toBeDefined();
  const reply = await web.get('/metrics');
  expect(reply.status).toBe(200);
  // https://prometheus.io/docs/instrumenting/exposition_formats/#text-format-details
  expect(reply.headers.get('content-type')).toMatch(/^text\/plain; version=0\.0\.4/);
  const text = await reply.text();
  expect(text).toMatch(/^# HELP thawline_ok /m);
  expect(text).toMatch(/^# TYPE thawline_mails_due gauge$/m);
  expect(text).toMatch(/^thawline_mails\{state="pending"\} \d+$/m);
  expect(text).toMatch(/^thawline_lake_problems\{lake="pine-hollow"\} [1-9]\d*$/m);
  expect(text).not.toContain('@');
  await web.record.close();
});

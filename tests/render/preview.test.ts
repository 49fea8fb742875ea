import { describe, expect, it } from 'vitest';
import { previewApp } from '../../src/cli/previewApp.ts';
import { ThawlineError } from '../../src/units/index.ts';
import { sampleBriefing } from '../helpers/sampleBriefing.ts';

const app = previewApp({
  makeDocument: () => Promise.resolve(sampleBriefing({ preview: true })),
  version: () => 'v1',
});
const get = async (path: string, on = app): Promise<{ status: number; text: string }> => {
  const reply = await on.request(`http://127.0.0.1${path}`);
  return { status: reply.status, text: await reply.text() };
};

describe('the preview', () => {
  it('shows page, text part and data side by side, marked as a preview', async () => {
    const { text } = await get('/');
    expect(text).toContain('src="/page?units=us&#38;width=600');
    expect(text).toContain('Preview: not an issued briefing.');
    expect(text).toContain('&#34;schema&#34;: &#34;thawline-twin/2&#34;');
  });

  it('switches units, dark and pictures', async () => {
    expect((await get('/page?units=metric')).text).toContain('8.3 °C'.replace(' ', '\u00a0'));
    expect((await get('/page?dark=1')).text).toContain('@media all');
    expect((await get('/page?dark=0')).text).toContain('@media not all');
    expect((await get('/page')).text).toContain('src="/picture/us/ten-days.png"');
    expect((await get('/page?images=0')).text).not.toContain('/picture/');
  });

  it('serves the pictures', async () => {
    const reply = await app.request('http://127.0.0.1/picture/us/cast-1.png');
    expect(reply.headers.get('content-type')).toBe('image/png');
    expect((await reply.arrayBuffer()).byteLength).toBeGreaterThan(5000);
    expect((await get('/picture/us/none.png')).status).toBe(404);
  });

  it('tells when something changed, and makes the page anew then', async () => {
    let version = 'a';
    let made = 0;
    const changing = previewApp({
      makeDocument: () => {
        made += 1;
        return Promise.resolve(sampleBriefing());
      },
      version: () => version,
    });
    await get('/page', changing);
    await get('/page', changing);
    expect(made).toBe(1);
    version = 'b';
    expect((await get('/version', changing)).text).toBe('b');
    await get('/page', changing);
    expect(made).toBe(2);
  });

  it('answers only on this machine', async () => {
    expect((await app.request('http://example.org/')).status).toBe(403);
  });

  it('shows a fault of the configuration as its sentence and stays up', async () => {
    const broken = previewApp({
      makeDocument: () => Promise.reject(new ThawlineError('config', 'Line 3: <name> is missing.')),
      version: () => 'v1',
    });
    const { status, text } = await get('/', broken);
    expect(status).toBe(500);
    expect(text).toContain('Line 3: &#60;name&#62; is missing.');
  });
});

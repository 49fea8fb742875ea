/** The preview as a web application, apart from the command so that tests can ask it without a port. */
import { Hono, type Context } from 'hono';
import type { KeptDocument } from '../words/index.ts';
import { renderBriefing, type RenderedBriefing } from '../render/index.ts';
import { ThawlineError, type UnitSystem } from '../units/index.ts';
import { previewShell, type PreviewSwitches } from './previewShell.ts';

export interface PreviewSource {
  readonly makeDocument: () => Promise<KeptDocument>;
  /** Changes when the configuration or a template changes; the page then loads itself again. */
  readonly version: () => string;
}

/** Switches as the address carries them; anything unknown is the default. */
function switchesOf(context: Context): PreviewSwitches {
  return {
    units: context.req.query('units') === 'metric' ? 'metric' : 'us',
    width: context.req.query('width') === '375' ? 375 : 600,
    dark: context.req.query('dark') === '1',
    images: context.req.query('images') !== '0',
  };
}

export function previewApp(source: PreviewSource): Hono {
  const made = new Map<string, Promise<RenderedBriefing>>();
  const rendered = (units: UnitSystem): Promise<RenderedBriefing> => {
    const key = `${source.version()} ${units}`;
    const known = made.get(key);
    if (known !== undefined) return known;
    made.clear();
    const fresh = source.makeDocument().then((document) => renderBriefing(document, { units, form: 'full' }));
    made.set(key, fresh);
    fresh.catch(() => made.delete(key));
    return fresh;
  };

  const app = new Hono();
  // A page elsewhere that points its own name at this machine must not read the preview.
  app.use('*', async (context, next) => {
    const { hostname } = new URL(context.req.url);
    if (!['127.0.0.1', 'localhost', '[::1]'].includes(hostname))
      return context.text('Only on this machine.', 403);
    return next();
  });
  app.onError((error, context) => {
    if (error instanceof ThawlineError) return context.text(error.message, 500);
    return context.text('The page could not be made; the terminal shows why.', 500);
  });
  app.get('/', async (context) => {
    const switches = switchesOf(context);
    try {
      const { subject, text, short, json } = await rendered(switches.units);
      return context.html(previewShell({ subject, text, short, json, switches, version: source.version() }));
    } catch (error) {
      if (!(error instanceof ThawlineError)) throw error;
      const parts = { subject: error.message, text: error.message, short: '', json: '' };
      return context.html(previewShell({ ...parts, switches, version: source.version() }), 500);
    }
  });
  app.get('/page', async (context) => {
    const { units, dark, images } = switchesOf(context);
    const { html, attachments } = await rendered(units);
    return context.html(forScreen(html, attachments, units, dark, images));
  });
  app.get('/picture/:units/:file', async (context) => {
    const { attachments } = await rendered(context.req.param('units') === 'metric' ? 'metric' : 'us');
    const found = attachments.find(({ filename }) => filename === context.req.param('file'));
    if (found === undefined) return context.text('No such picture.', 404);
    return context.body(new Uint8Array(found.content), 200, { 'content-type': found.contentType });
  });
  app.get('/version', (context) => context.text(source.version()));
  return app;
}

/** The mail's page with its pictures served from here, and its dark rules forced on or off. */
function forScreen(
  html: string,
  attachments: RenderedBriefing['attachments'],
  units: UnitSystem,
  dark: boolean,
  images: boolean,
): string {
  const pictured = attachments.reduce(
    (page, { cid, filename }) =>
      page.replaceAll(`cid:${cid}`, images ? `/picture/${units}/${filename}` : 'data:image/png;base64,'),
    html,
  );
  return pictured.replace(/\(prefers-color-scheme: dark\)/g, dark ? 'all' : 'not all');
}

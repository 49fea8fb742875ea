/** Frame of the preview: switches, the page, and the text and data parts beside it. */
export interface PreviewSwitches {
  readonly units: 'us' | 'metric';
  readonly width: 375 | 600;
  readonly dark: boolean;
  readonly images: boolean;
}

interface ShellParts {
  readonly subject: string;
  readonly text: string;
  readonly short: string;
  readonly json: string;
  readonly switches: PreviewSwitches;
  readonly version: string;
}

const escape = (text: string): string => text.replace(/[&<>"]/g, (sign) => `&#${sign.charCodeAt(0)};`);

const query = ({ units, width, dark, images }: PreviewSwitches): string =>
  `?units=${units}&width=${width}&dark=${dark ? 1 : 0}&images=${images ? 1 : 0}`;

export function previewShell({ subject, text, short, json, switches, version }: ShellParts): string {
  const link = (words: string, change: Partial<PreviewSwitches>): string => {
    const target = { ...switches, ...change };
    const current = query(target) === query(switches) ? ' aria-current="true"' : '';
    return `<a href="${escape(query(target))}"${current}>${words}</a>`;
  };
  const group = (name: string, links: readonly string[]): string => `<li>${name}: ${links.join(' ')}</li>`;
  return `<!doctype html>
<html lang="en">
<head>
<meta charset="utf-8" />
<meta name="viewport" content="width=device-width" />
<title>Preview: ${escape(subject)}</title>
<style>
  body { margin: 0; font: 16px/1.5 system-ui, sans-serif; color: #1b1f23; background: #fff; }
  header, main > section { padding: 12px 20px; }
  header { border-bottom: 1px solid #4a5560; }
  h1 { margin: 0 0 4px; font: 700 20px/1.3 Georgia, serif; }
  h2 { margin: 0 0 6px; font-size: 16px; }
  ul { margin: 0; padding: 0; list-style: none; display: flex; flex-wrap: wrap; gap: 4px 22px; }
  a { color: #005a8c; }
  a[aria-current] { color: #1b1f23; font-weight: 700; text-decoration: none; }
  main { display: flex; flex-wrap: wrap; align-items: flex-start; }
  iframe { border: 1px solid #4a5560; width: ${switches.width}px; height: 85vh; max-width: 100%; }
  pre { margin: 0 0 16px; padding: 10px; border: 1px solid #c9cfd4; max-height: 60vh; max-width: 76ch; overflow: auto; white-space: pre-wrap; font-size: 14px; }
</style>
</head>
<body>
<header>
<h1>${escape(subject)}</h1>
<nav aria-label="Switches"><ul>
${group('Units', [link('US', { units: 'us' }), link('metric', { units: 'metric' })])}
${group('Width', [link('600', { width: 600 }), link('375', { width: 375 })])}
${group('Ground', [link('light', { dark: false }), link('dark', { dark: true })])}
${group('Pictures', [link('on', { images: true }), link('off', { images: false })])}
</ul></nav>
</header>
<main>
<section aria-label="Page"><iframe title="The page as mailed" src="/page${escape(query(switches))}"></iframe></section>
<section aria-label="Other parts">
<h2>Text part</h2><pre tabindex="0" aria-label="Text part">${escape(text)}</pre>
<h2>Short form</h2><pre tabindex="0" aria-label="Short form">${escape(short)}</pre>
<h2>Data</h2><pre tabindex="0" aria-label="Data">${escape(json)}</pre>
</section>
</main>
<script>
  const made = ${JSON.stringify(version).replace(/</g, '\\u003c')};
  setInterval(() => fetch('/version').then((reply) => reply.text()).then((now) => { if (now !== made) location.reload(); }, () => {}), 1000);
</script>
</body>
</html>`;
}

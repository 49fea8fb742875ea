import { COLOUR } from '../render/index.ts';

type Palette = Readonly<Record<keyof typeof COLOUR, string>>;

/** The same hues on a dark ground, each at least 4.5 to 1 against it. */
const DARK: Palette = {
  ink: '#E9ECEF',
  slate: '#AEB8C0',
  blue: '#7CC0EE',
  vermillion: '#FF9F66',
  fill: '#3A2C12',
  hairline: '#434C54',
  white: '#15191C',
};

const variables = (palette: Palette): string =>
  Object.entries(palette)
    .map(([name, value]) => `--${name}:${value}`)
    .join(';');

/** A drawing's colours are attributes of its marks; here they follow the reader's scheme. */
const DRAWN = Object.entries(COLOUR)
  .map(
    ([name, value]) =>
      `svg [fill="${value}"]{fill:var(--${name})}svg [stroke="${value}"]{stroke:var(--${name})}`,
  )
  .join('\n');

/** The head of every page. */
const HEAD = `
header{display:flex;flex-wrap:wrap;justify-content:space-between;gap:4px 16px;border-bottom:1px solid var(--ink);padding-bottom:8px}
header p{margin:0}
nav a{margin-left:12px}
nav a:first-child{margin-left:0}
.kicker{letter-spacing:1px;text-transform:uppercase;font-size:14px}
.skip{position:absolute;left:-9999px}
.skip:focus{position:static}
`.trim();

/**
 * What a whole briefing gets beside the mail's own look, which stands inline: the head, the foot's links, and two columns
 * on a wide screen.
 */
export const BRIEFING_STYLE = `
:root{color-scheme:light dark;${variables(COLOUR)}}
@media(prefers-color-scheme:dark){:root{${variables(DARK)}}}
header,.skip{max-width:552px;margin:0 auto;color:var(--ink);font:17px/1.5 system-ui,-apple-system,'Segoe UI',sans-serif}
${HEAD}
header{padding:12px 0 8px}
header a,.skip,.foot a{color:var(--blue)}
[role=article]{background-color:transparent!important}
:focus-visible{outline:3px solid var(--blue);outline-offset:2px}
main:focus{outline:none}
@media(max-width:599px){header{margin:0 16px}}
@media(min-width:1000px){
header,.skip{max-width:1192px;margin:0 24px}
.sides{display:grid;grid-template-columns:minmax(0,1fr) minmax(0,1fr);max-width:1240px;margin:0 auto}
}
@media(min-width:1240px){header,.skip{margin:0 auto}}
@media print{header,.skip{display:none}}
`.trim();

/** The mail's ink, hues and hairlines; served as a file, so that no page needs inline styles. */
export const STYLE_SHEET = `
:root{color-scheme:light dark;${variables(COLOUR)}}
@media(prefers-color-scheme:dark){:root{${variables(DARK)}}}
*{box-sizing:border-box}
body{margin:0 auto;max-width:600px;padding:16px;background:var(--white);color:var(--ink);font:17px/1.5 system-ui,-apple-system,'Segoe UI',sans-serif;overflow-wrap:break-word}
${HEAD}
h1{font:700 30px/1.2 Georgia,'Times New Roman',serif;margin:16px 0 8px}
h2{font:700 20px/1.3 Georgia,'Times New Roman',serif;margin:24px 0 6px;padding-top:10px;border-top:1px solid var(--hairline)}
a{color:var(--blue)}
a,button,input,select{outline-offset:2px}
input,select{max-width:100%}
:focus-visible{outline:3px solid var(--blue)}
main:focus{outline:none}
ul,ol{padding-left:22px}
li{margin:4px 0}
.plain{list-style:none;padding:0}
.plain li{border-bottom:1px solid var(--hairline);padding:6px 0;margin:0}
.note{color:var(--slate);font-size:15px}
.danger-1{color:var(--slate)}
.danger-2{font-weight:700;border-left:4px solid var(--ink);padding-left:10px}
.danger-3{color:var(--vermillion);font-weight:700;border:2px solid var(--vermillion);padding:8px 10px}
.danger-4{background:var(--vermillion);color:var(--white);font-weight:700;font-size:22px;padding:10px}
.warning{color:var(--vermillion);font-weight:700}
fieldset{min-width:0;border:0;border-top:1px solid var(--hairline);padding:10px 0;margin:0 0 6px}
legend{font-weight:700;padding:0}
label{display:block;margin:6px 0}
label.inline{display:inline-block;margin-right:14px}
input[type=email],input[type=text],input[type=date],input[type=time],select{display:block;width:100%;font:inherit;padding:8px;border:1px solid var(--slate);border-radius:0;background:var(--white);color:var(--ink)}
input[type=range]{width:100%;accent-color:var(--blue)}
input[type=range].unset{appearance:none;height:16px;background:linear-gradient(var(--hairline),var(--hairline)) center/100% 2px no-repeat}
input[type=range].unset::-webkit-slider-thumb{visibility:hidden}
input[type=range].unset::-moz-range-thumb{visibility:hidden}
input[type=checkbox],input[type=radio]{width:20px;height:20px;vertical-align:-4px;accent-color:var(--blue)}
button{font:inherit;font-weight:700;padding:10px 18px;border:2px solid var(--blue);background:var(--blue);color:var(--white);border-radius:0;cursor:pointer}
button.quiet{background:var(--white);color:var(--blue)}
figure{margin:10px 0}
figure svg{display:block;width:100%;height:auto}
.map .for-narrow{display:none}
@media(max-width:480px){.map .for-wide{display:none}.map .for-narrow{display:block}}
.hours li[aria-current]{font-weight:700}
svg [hidden]{display:none}
svg text{font-family:system-ui,-apple-system,'Segoe UI',sans-serif}
${DRAWN}
.pair{display:grid;grid-template-columns:1fr 1fr;gap:0 14px}
.chips{display:flex;flex-wrap:wrap;gap:6px}
.chip{margin:0;position:relative}
.chip span{display:inline-block;min-width:44px;min-height:44px;padding:9px 12px;border:1px solid var(--slate);text-align:center}
.chip input{position:absolute;opacity:0}
.chip input:checked+span{background:var(--blue);border-color:var(--blue);color:var(--white);font-weight:700}
.chip input:focus-visible+span{outline:3px solid var(--blue);outline-offset:2px}
summary{padding:10px 0;font-weight:700;cursor:pointer}
.trap{position:absolute;left:-9999px}
@media(min-width:1000px){body.wide{max-width:1080px}.fronts,.sides{display:grid;grid-template-columns:minmax(0,1fr) minmax(0,1fr);gap:0 40px}.sides h2:first-child{margin-top:0;padding-top:0;border:0}}
table{border-collapse:collapse;width:100%}
th,td{text-align:left;padding:6px 12px 6px 0;border-bottom:1px solid var(--hairline);font-weight:400;vertical-align:top}
thead th{font-weight:700}
.conditions th{width:92px;word-break:normal}
.strip th[scope=row]{position:sticky;left:0;background:var(--white)}
.strip{overflow-x:auto}
.strip th,.strip td{padding:2px 4px 2px 0;border:0;vertical-align:middle;font-size:15px}
.strip input[type=text]{width:72px;padding:8px 6px;font-size:15px}
pre{overflow-x:auto;border:1px solid var(--hairline);padding:10px}
@media print{:root{${variables(COLOUR)}}@page{size:A5;margin:10mm}body{font-size:11pt;max-width:none}header,footer,nav,.skip{display:none}}
footer{margin-top:28px;border-top:1px solid var(--ink);color:var(--slate);font-size:15px}
`.trim();

/**
 * What-if: a slider beside each quantity, and the answer fetched anew while the form changes. Without it the same form
 * is sent by its button.
 */
export const LIVE_SCRIPT = `
'use strict';
(() => {
  const words = JSON.parse(document.currentScript.dataset.words);
  const form = document.querySelector('form[data-live]');
  const result = document.getElementById('result');
  if (!form || !result) return;
  let timer = 0;
  let asked = 0;
  const ask = async () => {
    const mine = ++asked;
    const query = new URLSearchParams();
    for (const [name, value] of new FormData(form)) if (value !== '') query.append(name, value);
    try {
      const reply = await fetch('/what-if/result?' + query, { headers: { accept: 'text/html' } });
      const text = await reply.text();
      if (mine !== asked) return;
      const parsed = new DOMParser().parseFromString(text, 'text/html');
      result.replaceChildren(...parsed.body.childNodes);
      history.replaceState(null, '', '/what-if?' + query);
    } catch {
      result.textContent = words.noAnswer;
    }
  };
  form.addEventListener('input', () => { clearTimeout(timer); timer = setTimeout(ask, 250); });
  for (const input of form.querySelectorAll('input[data-low]')) {
    const slider = document.createElement('input');
    slider.type = 'range';
    slider.min = input.dataset.low;
    slider.max = input.dataset.high;
    slider.step = input.dataset.step;
    slider.setAttribute('aria-label', input.dataset.name + words.slider);
    const number = parseFloat(input.value);
    // A range has no empty state: until a number is given its thumb is not shown, and it says so.
    const show = (n) => {
      slider.classList.toggle('unset', Number.isNaN(n));
      if (Number.isNaN(n)) slider.setAttribute('aria-valuetext', words.notGiven);
      else slider.removeAttribute('aria-valuetext');
    };
    slider.value = Number.isNaN(number) ? input.dataset.start : number;
    show(number);
    slider.addEventListener('input', () => {
      input.value = slider.value + ' ' + input.dataset.unit;
      show(parseFloat(slider.value));
    });
    input.addEventListener('input', () => {
      const n = parseFloat(input.value);
      if (!Number.isNaN(n)) slider.value = n;
      show(n);
    });
    input.after(slider);
  }
})();
`.trim();

/** The map by the hour: moving the slider fetches the same page for its hour. Without it the form's button does. */
export const MAP_SCRIPT = `
'use strict';
(() => {
  const form = document.querySelector('form[data-map]');
  if (!form) return;
  const slider = form.querySelector('input[type=range]');
  let timer = 0;
  let asked = 0;
  const say = () => {
    const line = document.querySelector('.hours li:nth-child(' + (Number(slider.value) + 1) + ')');
    if (line) slider.setAttribute('aria-valuetext', line.textContent.trim());
  };
  const ask = async () => {
    const mine = ++asked;
    const query = new URLSearchParams(new FormData(form));
    try {
      const reply = await fetch('?' + query, { headers: { accept: 'text/html' } });
      const text = await reply.text();
      if (mine !== asked || !reply.ok) return;
      const parsed = new DOMParser().parseFromString(text, 'text/html');
      for (const id of ['map', 'hours']) {
        const [now, next] = [document.getElementById(id), parsed.getElementById(id)];
        if (now && next) now.replaceChildren(...next.childNodes);
      }
      say();
      history.replaceState(null, '', '?' + query);
    } catch {
      form.querySelector('button').hidden = false;
    }
  };
  form.querySelector('button').hidden = true;
  slider.addEventListener('input', () => { say(); clearTimeout(timer); timer = setTimeout(ask, 120); });
  say();
})();
`.trim();

/** The strip of the day: the hour that it is at the lake stays marked while the page stands open, by the server's clock. */
export const STRIP_SCRIPT = `
'use strict';
(() => {
  const strip = document.querySelector('[data-strip]');
  if (!strip) return;
  const hourMs = 3600000;
  // How far the clock of who reads is from ours.
  const ahead = Date.now() - Number(strip.dataset.strip);
  const show = () => {
    const now = Date.now() - ahead;
    for (const one of strip.querySelectorAll('[data-hour]')) {
      const since = now - Number(one.dataset.hour);
      one.toggleAttribute('hidden', since < 0 || since >= hourMs);
    }
  };
  setInterval(show, 20000);
  document.addEventListener('visibilitychange', show);
  show();
})();
`.trim();

/**
 * The form without a signal: an outing that cannot be sent is kept on the telephone and sent later; a worker keeps the
 * page itself, so that it opens at the ramp. Without either the same form is sent by its button.
 */
export const OUTING_SCRIPT = `
'use strict';
(() => {
  const KEY = 'thawline-outings';
  const words = JSON.parse(document.currentScript.dataset.words);
  const main = document.getElementById('content');
  const form = document.querySelector('form[data-outing]');
  if ('serviceWorker' in navigator) navigator.serviceWorker.register('/outing-worker.js', { scope: '/outing' }).catch(() => {});
  const kept = () => { try { return JSON.parse(localStorage.getItem(KEY) || '[]'); } catch { return []; } };
  const keep = (list) => { try { localStorage.setItem(KEY, JSON.stringify(list)); return true; } catch { return false; } };
  const tell = (said) => { const at = document.querySelector('[data-outing-status]'); if (at) at.textContent = said; };
  const post = (body) => fetch('/outing', { method: 'POST', body: new URLSearchParams(body) });
  const parsed = async (reply) => new DOMParser().parseFromString(await reply.text(), 'text/html');
  const show = (page) => {
    const next = page.getElementById('content');
    if (!next || !main) return;
    main.replaceChildren(...next.childNodes);
    document.title = page.title;
    main.focus();
    scrollTo(0, 0);
    listen(document.querySelector('form[data-outing]'));
  };
  let busy = false;
  const sendKept = async () => {
    if (busy) return;
    busy = true;
    try {
      for (let list = kept(); list.length > 0; list = kept()) {
        let reply;
        try { reply = await post(list[0]); } catch { tell(words.waits.replace('#', list.length)); return; }
        if (reply.status === 429 || reply.status >= 500) { tell(words.waitsLonger.replace('#', list.length)); return; }
        keep(list.slice(1));
        const page = await parsed(reply);
        // What was refused comes back as its form, so that nothing typed is lost.
        if (!reply.ok) { show(page); return; }
        tell(words.sent);
      }
    } finally { busy = false; }
  };
  const listen = (one) => {
    if (!one) return;
    one.addEventListener('submit', async (event) => {
      event.preventDefault();
      const body = new URLSearchParams(new FormData(one)).toString();
      try { show(await parsed(await post(body))); }
      catch {
        if (keep([...kept(), body])) { one.reset(); tell(words.keptNow); }
        else tell(words.notKept);
      }
    });
  };
  // A page that was kept since yesterday must let today be told.
  const day = form && form.querySelector('input[name=date]');
  if (day && Date.now() - Number(form.dataset.made) > 6 * 3600000) {
    const now = new Date();
    const today = new Date(now.getTime() - now.getTimezoneOffset() * 60000).toISOString().slice(0, 10);
    if (day.value === day.max) day.value = day.defaultValue = today;
    day.max = today;
  }
  listen(form);
  addEventListener('online', sendKept);
  document.addEventListener('visibilitychange', () => { if (!document.hidden) sendKept(); });
  // A telephone may say that it is on line when it is not, and the other way round.
  setInterval(() => { if (kept().length > 0) sendKept(); }, 20000);
  sendKept();
})();
`.trim();

/** Keeps the newest form and what it needs; asks the network first, always. */
export const OUTING_WORKER = `
'use strict';
const NAME = 'thawline-outing-1';
const PARTS = ['/style.css', '/outing.js'];
self.addEventListener('install', (event) => {
  event.waitUntil(caches.open(NAME).then((cache) => cache.addAll(PARTS)).then(() => self.skipWaiting()));
});
self.addEventListener('activate', (event) => event.waitUntil(self.clients.claim()));
self.addEventListener('fetch', (event) => {
  const { request } = event;
  const url = new URL(request.url);
  if (request.method !== 'GET' || url.origin !== location.origin) return;
  const isForm = url.pathname === '/outing';
  if (!isForm && !PARTS.includes(url.pathname)) return;
  event.respondWith((async () => {
    const cache = await caches.open(NAME);
    try {
      const reply = await fetch(request);
      if (reply.ok) {
        // One form alone: the link of an older mail does not stay behind.
        if (isForm) for (const old of await cache.keys()) if (new URL(old.url).pathname === '/outing') await cache.delete(old);
        await cache.put(request, reply.clone());
      }
      return reply;
    } catch (error) {
      const known = (await cache.match(request)) || (isForm && (await cache.match('/outing', { ignoreSearch: true })));
      if (known) return known;
      throw error;
    }
  })());
});
`.trim();

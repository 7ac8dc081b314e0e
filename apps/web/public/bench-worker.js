// Keeps the program of the bench on the device, so that it opens with no network at all. It answers for two things only:
// files of a build, whose names change with their content, and the bench's page, which is the same for everybody and holds
// nothing of the shop. What the API says never passes here.
const HOME = '/bench';
const FILES = 'fairlead-files';
/** The page that opens without a network: all of its files are kept. */
const SHELL = 'fairlead-shell';
/** The newest page that came; it becomes the shell when its files are kept as well. */
const NEWEST = 'fairlead-newest';
const LONGEST_MS = 3000;

const isFile = (url) => url.pathname.startsWith('/_next/static/');
const filesIn = (html) => html.match(/\/_next\/static\/[^"'\\\s)<>]+\.\w+/g) ?? [];

const kept = async (cache, key) => (await caches.open(cache)).match(key);
const keep = async (cache, key, answer) => (await caches.open(cache)).put(key, answer);

async function file(request) {
  const known = await kept(FILES, request);
  if (known) return known;
  const answer = await fetch(request);
  if (answer.ok) await keep(FILES, request, answer.clone()).catch(() => undefined);
  return answer;
}

/** The page from the shop, unless that takes longer than three seconds or fails, and there is one here. */
async function page(event) {
  const asked = fetch(event.request).then(async (answer) => {
    const isPage = answer.ok && (answer.headers.get('content-type') ?? '').startsWith('text/html');
    if (isPage && !answer.redirected)
      await keep(NEWEST, HOME, answer.clone()).catch(() => undefined);
    return answer;
  });
  event.waitUntil(asked.catch(() => undefined));
  const shell = await kept(SHELL, HOME);
  if (!shell) return asked;
  const late = new Promise((resolve) => setTimeout(resolve, LONGEST_MS, null));
  const answer = await Promise.race([asked.catch(() => null), late]);
  return answer !== null && answer.status < 500 ? answer : shell;
}

/**
 * Makes the newest page the one that opens without a network, once every file of it is here: those that its text names, and
 * those that the running page has told of. Files of builds before go. Fails as a whole: what was kept before then stays.
 */
async function settle(told) {
  let html = (await kept(NEWEST, HOME)) ?? (await kept(SHELL, HOME));
  if (!html) return;
  let files = filesIn(await html.clone().text());
  const scripts = files.filter((each) => each.endsWith('.js'));
  if (told.length > 0 && !scripts.every((each) => told.includes(each))) {
    // The page that told is of the build before: the newest waits until it has been opened itself.
    html = await kept(SHELL, HOME);
    if (!html) return;
    files = filesIn(await html.clone().text());
  }
  const all = new Set([...files, ...told]);
  await Promise.all(
    [...all].map(async (each) => {
      const answer = await file(new Request(each));
      if (!answer.ok) throw new Error(`${each} answered ${answer.status}`);
    }),
  );
  await keep(SHELL, HOME, html);
  if (told.length === 0) return;
  const cache = await caches.open(FILES);
  for (const each of await cache.keys())
    if (!all.has(new URL(each.url).pathname)) await cache.delete(each);
}

self.addEventListener('install', (event) => {
  self.skipWaiting();
  event.waitUntil(
    (async () => {
      const answer = await fetch(HOME, { credentials: 'same-origin' });
      if (!answer.ok || answer.redirected) return;
      await keep(NEWEST, HOME, answer);
      await settle([]);
    })().catch(() => undefined),
  );
});

self.addEventListener('activate', (event) => event.waitUntil(self.clients.claim()));

self.addEventListener('message', (event) => {
  const told = Array.isArray(event.data?.files) ? event.data.files : [];
  const files = told.filter(
    (each) => typeof each === 'string' && each.startsWith('/_next/static/'),
  );
  event.waitUntil(settle(files).catch(() => undefined));
});

self.addEventListener('fetch', (event) => {
  const { request } = event;
  const url = new URL(request.url);
  if (request.method !== 'GET' || url.origin !== self.location.origin) return;
  if (isFile(url)) event.respondWith(file(request));
  else if (request.mode === 'navigate' && url.pathname === HOME) event.respondWith(page(event));
});

// The web server: Next's own, and for who takes brotli the files that compress-static.mjs packed at the build.
// Next gzips whatever it sends at each request; a file that comes with its encoding it sends as it lies there,
// with the type, age and checks of any other static file.
import { subscribe } from 'node:diagnostics_channel';
import { existsSync, readdirSync } from 'node:fs';
import path from 'node:path';

const packed = path.join(import.meta.dirname, '.next/static/br');
const names = existsSync(packed)
  ? readdirSync(packed, { recursive: true, encoding: 'utf8' }).filter((name) => /\.\w+$/.test(name))
  : [];
const files = new Set(names.map((name) => name.replaceAll(path.sep, '/')));

const statics = '/_next/static/';

/** Whether an Accept-Encoding names brotli, and not to refuse it (RFC 9110, 12.5.3). */
const takesBrotli = (/** @type {string | undefined} */ accepts) =>
  (accepts ?? '')
    .split(',')
    .some((each) => /^\s*br\s*(;\s*q=(1(\.0*)?|0?\.\d*[1-9]\d*)\s*)?$/i.test(each));

subscribe('http.server.request.start', (message) => {
  const { request, response } =
    /** @type {{ request: import('node:http').IncomingMessage, response: import('node:http').ServerResponse }} */ (
      message
    );
  if (!request.url?.startsWith(statics)) return;
  const [name = ''] = request.url.slice(statics.length).split('?');
  if (!files.has(name)) return;
  response.setHeader('Vary', 'Accept-Encoding');
  if (!takesBrotli(request.headers['accept-encoding'])) return;
  response.setHeader('Content-Encoding', 'br');
  request.url = `${statics}br/${request.url.slice(statics.length)}`;
});

await import('./server.js');

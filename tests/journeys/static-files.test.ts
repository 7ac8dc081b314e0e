import { readFileSync } from 'node:fs';
import http, { type IncomingMessage } from 'node:http';
import { brotliDecompressSync, gunzipSync } from 'node:zlib';
import { expect, test } from '@playwright/test';

interface Answer {
  status: number;
  headers: IncomingMessage['headers'];
  body: Buffer;
}

/** One request with exactly these headers, its body as it came over the wire. */
const ask = (
  address: URL,
  headers: Record<string, string>,
  method: 'GET' | 'HEAD' = 'GET',
): Promise<Answer> =>
  new Promise((resolve, reject) => {
    const request = http.request(address, { method, headers, agent: false }, (response) => {
      const pieces: Buffer[] = [];
      response.on('data', (piece: Buffer) => pieces.push(piece));
      response.once('error', reject);
      response.once('end', () =>
        resolve({
          status: response.statusCode ?? 0,
          headers: response.headers,
          body: Buffer.concat(pieces),
        }),
      );
    });
    request.once('error', reject);
    request.end();
  });

/** The scripts and styles that a page names. */
async function filesOf(page: URL): Promise<URL[]> {
  const { body } = await ask(page, {});
  const names = body.toString().match(/\/_next\/static\/[\w./-]+\.(js|css)/g) ?? [];
  return [...new Set(names)].map((name) => new URL(name, page));
}

test('Scripts and styles come by brotli to who takes it, else by gzip or plain, and are the same bytes', async ({
  baseURL,
}) => {
  const files = await filesOf(new URL('/sign-in', baseURL));
  expect(files.some(({ pathname }) => pathname.endsWith('.js'))).toBe(true);
  expect(files.some(({ pathname }) => pathname.endsWith('.css'))).toBe(true);
  for (const file of files) {
    const plain = await ask(file, {});
    const byGzip = await ask(file, { 'accept-encoding': 'gzip, deflate' });
    const byBrotli = await ask(file, { 'accept-encoding': 'gzip, deflate, br, zstd' });
    expect(plain.headers['content-encoding']).toBeUndefined();
    expect(byBrotli.headers['content-encoding']).toBe('br');
    expect(brotliDecompressSync(byBrotli.body).equals(plain.body)).toBe(true);
    expect(Number(byBrotli.headers['content-length'])).toBe(byBrotli.body.length);
    // Next gzips nothing that is smaller than a packet.
    if (plain.body.length > 1500) {
      expect(byGzip.headers['content-encoding']).toBe('gzip');
      expect(gunzipSync(byGzip.body).equals(plain.body)).toBe(true);
      expect(byBrotli.body.length).toBeLessThan(byGzip.body.length);
    }
    for (const { status, headers } of [plain, byGzip, byBrotli]) {
      expect(status).toBe(200);
      expect(headers['vary']).toMatch(/accept-encoding/i);
      expect(headers['cache-control']).toBe('public, max-age=31536000, immutable');
      expect(headers['content-type']).toBe(plain.headers['content-type']);
      expect(headers['x-content-type-options']).toBe('nosniff');
    }
  }
});

test('Who refuses brotli gets none, and what is not packed comes as before', async ({
  baseURL,
}) => {
  const [file] = await filesOf(new URL('/sign-in', baseURL));
  if (!file) throw new Error('The sign-in page names no file');
  for (const accepts of ['gzip, br;q=0', 'br;q=0.000', 'gzip;q=1, br ; q=0.0', 'brotli', 'x-br'])
    expect((await ask(file, { 'accept-encoding': accepts })).headers['content-encoding']).not.toBe(
      'br',
    );
  for (const accepts of ['br', 'gzip;q=0.5,br;q=0.1', 'BR', 'br; q=1.000'])
    expect((await ask(file, { 'accept-encoding': accepts })).headers['content-encoding']).toBe(
      'br',
    );

  const head = await ask(file, { 'accept-encoding': 'br' }, 'HEAD');
  const whole = await ask(file, { 'accept-encoding': 'br' });
  expect(head.headers['content-length']).toBe(String(whole.body.length));
  expect(head.body.length).toBe(0);
  const again = await ask(file, {
    'accept-encoding': 'br',
    'if-none-match': String(whole.headers.etag),
  });
  expect([again.status, again.body.length]).toEqual([304, 0]);

  const away = new URL('/_next/static/chunks/was-there-yesterday.js', file);
  const missing = await ask(away, { 'accept-encoding': 'br' });
  expect(missing.status).toBe(404);
  expect(missing.headers['content-encoding']).not.toBe('br');
});

test('The image of the web server starts the same entry', () => {
  const text = readFileSync(new URL('../../deploy/Dockerfile', import.meta.url), 'utf8');
  expect(text.slice(text.lastIndexOf('FROM'))).toContain('CMD ["node", "apps/web/serve.mjs"]');
});

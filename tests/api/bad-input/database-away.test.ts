import net, { type AddressInfo } from 'node:net';
import { createApp, listen } from '@fairlead/api/app';
import pino from 'pino';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { startApi, type TestApi } from '../../support/api.ts';
import { makeShop, type TestShop } from '../../support/shop.ts';

// A wire between the API and its database that the test can cut and mend.
let api: TestApi;
let shop: TestShop;
let cut = false;
const open = new Set<net.Socket>();
let wire: net.Server;
let behind: Awaited<ReturnType<typeof createApp>>;
let origin: string;
let close: () => Promise<void>;

beforeAll(async () => {
  api = await startApi();
  shop = await makeShop(api);
  const target = new URL(api.database.appUrl);
  wire = net.createServer((socket) => {
    if (cut) return void socket.destroy();
    const up = net.connect(Number(target.port), target.hostname);
    for (const [from, to] of [
      [socket, up],
      [up, socket],
    ] as const) {
      open.add(from);
      from.pipe(to);
      from.on('error', () => to.destroy());
      from.on('close', () => to.destroy());
    }
  });
  await new Promise<void>((resolve) => wire.listen(0, '127.0.0.1', resolve));
  const url = new URL(api.database.appUrl);
  url.port = String((wire.address() as AddressInfo).port);
  behind = await createApp({
    DATABASE_URL: url.href,
    WEB_ORIGIN: 'http://shop.test',
    UPLOADS_DIR: api.uploadsDir,
    SIGN_IN_SECRET: api.secret,
    log: pino({ level: 'silent' }),
  });
  const server = await listen(behind.app, 0);
  origin = `http://127.0.0.1:${(server.address() as AddressInfo).port}`;
  close = async () => {
    await new Promise((resolve) => {
      server.close(resolve);
      server.closeAllConnections();
    });
    await behind.close();
  };
});
afterAll(async () => {
  await close();
  for (const socket of open) socket.destroy();
  await new Promise((resolve) => wire.close(resolve));
  await api.stop();
});

const sever = () => {
  cut = true;
  for (const socket of open) socket.destroy();
  open.clear();
};

it('with the database away it answers 503 and Retry-After, and is itself again when the database is back', {
  timeout: 60_000,
}, async () => {
  expect((await fetch(`${origin}/readyz`)).status).toBe(200);
  sever();
  const ready = await fetch(`${origin}/readyz`);
  expect(ready.status).toBe(503);
  expect(Number(ready.headers.get('retry-after'))).toBeGreaterThan(0);
  expect((await fetch(`${origin}/healthz`)).status).toBe(200);
  const cookie = await shop.cookie('manager');
  const asked = await fetch(`${origin}/graphql`, {
    method: 'POST',
    headers: { 'content-type': 'application/json', 'apollo-require-preflight': '1', cookie },
    body: JSON.stringify({ query: '{ people { name } }' }),
  });
  expect(asked.status).toBe(503);
  expect(Number(asked.headers.get('retry-after'))).toBeGreaterThan(0);
  expect(await asked.text()).toContain('UNAVAILABLE');
  cut = false;
  await expect
    .poll(async () => (await fetch(`${origin}/readyz`)).status, { timeout: 20_000 })
    .toBe(200);
});

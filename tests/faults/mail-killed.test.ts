/** The worker is killed with a mail in its hands. Nothing is lost; what can come twice says that it is the same. */
import { type ChildProcess, spawn } from 'node:child_process';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { tsxArguments } from '../../scripts/run-tool.ts';
import { happened, settled } from '../api/post/post-shop.ts';
import { sentQuote } from '../api/quoting/quoting-shop.ts';
import { startApi, type TestApi } from '../support/api.ts';
import { startMailServer } from '../support/mail-server.ts';
import { makeShop } from '../support/shop.ts';

let api: TestApi;
beforeAll(async () => {
  api = await startApi();
});
afterAll(async () => {
  expect(api.faults).toEqual([]);
  await api.stop();
});

/** The worker as a process of its own. */
function startWorker(smtpPort: number): { child: ChildProcess; kill(): Promise<void> } {
  const child = spawn(process.execPath, tsxArguments('apps/api/src/worker.ts'), {
    stdio: 'ignore',
    env: {
      PATH: process.env.PATH,
      HOME: process.env.HOME,
      NODE_ENV: 'production',
      LOG_LEVEL: 'silent',
      DATABASE_URL: api.database.appUrl,
      UPLOADS_DIR: api.uploadsDir,
      SIGN_IN_SECRET: api.secret,
      WEB_ORIGIN: 'http://shop.test',
      SMTP_HOST: '127.0.0.1',
      SMTP_PORT: String(smtpPort),
      SMTP_TLS: 'none',
      MAIL_FROM: 'post@fairlead.example',
    },
  });
  const ended = new Promise<void>((resolve) => child.once('exit', () => resolve()));
  return {
    child,
    kill: async () => {
      child.kill('SIGKILL');
      await ended;
    },
  };
}

it('killed before the server had the mail: the next worker sends it at once, once', async () => {
  const shop = await makeShop(api);
  const server = await startMailServer({
    // It greets, and answers no sender: the mail is on its way and not there.
    onMailFrom: () => {},
  });
  await sentQuote(shop);
  const first = startWorker(server.port);
  await happened(shop, 'tried');
  await first.kill();
  await server.close();
  const back = await startMailServer({ port: server.port });
  const second = startWorker(back.port);
  try {
    // The queue would keep the dead worker's job locked for four hours.
    const [mail] = await settled(shop, 'sent');
    expect(mail?.events.map(({ kind }) => kind)).toEqual(['tried', 'tried', 'sent']);
    expect(back.arrived).toHaveLength(1);
  } finally {
    await second.kill();
    await back.close();
  }
}, 60_000);

it('killed between the server’s having it and our knowing: it comes twice, byte for byte the same, under one Message-ID', async () => {
  const shop = await makeShop(api);
  const server = await startMailServer();
  let took = () => {};
  const taken = new Promise<void>((done) => (took = done));
  server.beforeAnswer = () => {
    took();
    // It has the mail, and its answer never gets through.
    return new Promise(() => {});
  };
  await sentQuote(shop);
  const first = startWorker(server.port);
  await taken;
  await first.kill();
  server.beforeAnswer = async () => {};
  const second = startWorker(server.port);
  try {
    const [mail] = await settled(shop, 'sent');
    // The desk sees that a try ended without an answer.
    expect(mail?.events.map(({ kind }) => kind)).toEqual(['tried', 'tried', 'sent']);
    const [one, other] = server.arrived;
    expect(server.arrived).toHaveLength(2);
    expect(other?.parsed.messageId).toBe(one?.parsed.messageId);
    expect(other?.raw).toBe(one?.raw);
  } finally {
    await second.kill();
    await server.close();
  }
}, 60_000);

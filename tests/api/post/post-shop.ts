import { jobTasks } from '@fairlead/api/jobs';
import type { SmtpSettings } from '@fairlead/api/post/transport';
import { createClient } from '@fairlead/database';
import { createWorker, type Worker } from '@fairlead/database/jobs';
import { rolePool } from '@fairlead/database/role-pool';
import { roles } from '@fairlead/database/roles';
import { expect, vi } from 'vitest';
import type { TestApi } from '../../support/api.ts';
import type { TestShop } from '../../support/shop.ts';

export const settings = (port: number, over: Partial<SmtpSettings> = {}): SmtpSettings => ({
  host: '127.0.0.1',
  port,
  tls: 'none',
  login: null,
  from: 'post@fairlead.example',
  ...over,
});

/** Runs the worker as it runs, with this mail server or with none, while `work` does. */
export async function withWorker<T>(
  api: TestApi,
  smtp: SmtpSettings | null,
  work: (worker: Worker) => Promise<T>,
): Promise<T> {
  const client = createClient({ url: api.database.appUrl, poolSize: 4 });
  const locks = rolePool({ url: api.database.appUrl, role: roles.jobs, max: 2 });
  const worker = await createWorker({
    appUrl: api.database.appUrl,
    concurrency: 4,
    pollInterval: 100,
    tasks: jobTasks(client, {
      uploadsDir: api.uploadsDir,
      webOrigin: 'http://shop.test',
      smtp,
      locks,
    }),
  });
  try {
    return await work(worker);
  } finally {
    await worker.stop();
    await locks.end();
    await client.$disconnect();
  }
}

/** What waits for its time is due now. */
export const hurry = (worker: Worker, shop: TestShop) =>
  worker.pool.query(
    'select graphile_worker.reschedule_jobs(array(select id from graphile_worker.jobs where key like $1), run_at := now())',
    [`${shop.shopId}:send_mail:%`],
  );

export interface ShownMail {
  id: string;
  to: string;
  toName: string;
  subject: string;
  text: string;
  about: string;
  state: string;
  queuedBy: { name: string } | null;
  papers: { filename: string | null; bytes: number | null; url: string }[];
  events: { kind: string; words: string; nextAt: string | null; at: string }[];
}

const MAIL = `id to toName subject text about state queuedBy { name } papers { filename bytes url }
  events { kind words nextAt at }`;

/** The Post as its page reads it, the last asked for first. */
export async function post(shop: TestShop, role: 'front_desk' | 'manager' = 'front_desk') {
  const answer = await shop.as<{ mails: { edges: { node: ShownMail }[] } }>(
    role,
    `{ mails(first: 50) { edges { node { ${MAIL} } } } }`,
  );
  if (!answer.data) throw new Error(JSON.stringify(answer));
  return answer.data.mails.edges.map(({ node }) => node);
}

/** Waits until every mail of the shop is in one of these states. */
export async function settled(shop: TestShop, ...states: string[]): Promise<ShownMail[]> {
  await vi.waitFor(
    async () => {
      for (const mail of await post(shop)) expect(states).toContain(mail.state);
    },
    { timeout: 20_000, interval: 50 },
  );
  return post(shop);
}

/** Waits until something happened to the newest mail of the shop for the n-th time. */
export async function happened(shop: TestShop, kind: string, times = 1): Promise<ShownMail> {
  await vi.waitFor(
    async () => {
      const [mail] = await post(shop);
      expect(mail?.events.filter((event) => event.kind === kind)).toHaveLength(times);
    },
    { timeout: 20_000, interval: 50 },
  );
  const [mail] = await post(shop);
  if (!mail) throw new Error('no mail');
  return mail;
}

export async function change(
  shop: TestShop,
  name: 'tryMailAgain' | 'putMailAway',
  mailId: string,
  why?: string,
): Promise<{ __typename: string; state?: string; code?: string; message?: string }> {
  const [type, arg] = why === undefined ? ['', ''] : [', $why: String', ', why: $why'];
  const answer = await shop.as<{ done: { __typename: string } }>(
    'front_desk',
    `mutation($mailId: ID!${type}) { done: ${name}(mailId: $mailId${arg}) { __typename ... on Refusal { code message } ... on Mail { state } } }`,
    { mailId, ...(why !== undefined && { why }) },
  );
  if (!answer.data) throw new Error(JSON.stringify(answer));
  return answer.data.done;
}

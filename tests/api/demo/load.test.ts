/** The demo shop as it is loaded: whole or not at all, once, and by the program's own rules. */
import { existsSync } from 'node:fs';
import { readFile } from 'node:fs/promises';
import path from 'node:path';
import { DEMO_SHOP_ID, loadDemo } from '@fairlead/api/demo/load-demo';
import { importHistory } from '@fairlead/api/hindsight/import-history';
import { estimateTasks } from '@fairlead/api/quoting/estimate-tasks';
import {
  findingFacts,
  findingState,
  invoiceFacts,
  invoiceState,
  itemFacts,
  itemState,
  orderFacts,
  orderState,
  quoteFacts,
  quoteState,
} from '@fairlead/api/states';
import { photoFile } from '@fairlead/api/work/photo-files';
import { type ClockFact, stretchesOf } from '@fairlead/api/work/stretches';
import { createClient, inShop, type Tx } from '@fairlead/database';
import { sealAudit } from '@fairlead/database/jobs';
import { rolePool } from '@fairlead/database/role-pool';
import { roles } from '@fairlead/database/roles';
import { currency, documentTotals, type TaxCategory } from '@fairlead/money';
import pg from 'pg';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { ask, startApi, type TestApi } from '../../support/api.ts';
import { createTestDatabase } from '../../support/database.ts';

const NOW = new Date('2027-03-02T09:00:00Z');
const TODAY = new Date('2027-03-02T00:00:00Z');

let api: TestApi;
let first: Awaited<ReturnType<typeof loadDemo>>;
let client: ReturnType<typeof createClient>;
const load = (now = NOW) =>
  loadDemo({ appUrl: api.database.appUrl, uploadsDir: api.uploadsDir, now });
const inside = <T>(work: (tx: Tx) => Promise<T>) =>
  inShop(client, { shopId: DEMO_SHOP_ID, personId: null, requestId: 'test' }, work);

async function asAdmin<Row>(url: string, sql: string): Promise<Row[]> {
  const admin = new pg.Client({ connectionString: url });
  await admin.connect();
  const { rows } = await admin.query(sql).finally(() => admin.end());
  return rows as Row[];
}

/** Rows of every table, the audit's and the chain's among them. */
const rowsOf = (url: string) =>
  asAdmin<{ name: string; rows: string }>(
    url,
    `SELECT c.relname AS name,
    (xpath('/row/n/text()', query_to_xml(format('SELECT count(*) AS n FROM %s', c.oid::regclass), false, true, '')))[1]::text AS rows
    FROM pg_class c WHERE c.relkind = 'r' AND c.relnamespace IN ('public'::regnamespace, 'identity'::regnamespace) ORDER BY 1`,
  );

beforeAll(async () => {
  api = await startApi({ now: () => NOW });
  client = createClient({ url: api.database.appUrl, poolSize: 2 });
  first = await load();
});
afterAll(async () => {
  await client.$disconnect();
  expect(api.faults).toEqual([]);
  await api.stop();
});

describe('loading', () => {
  test('a second time adds nothing and gives the same sign-ins', async () => {
    expect(first.loaded).toBe(true);
    const before = await rowsOf(api.database.adminUrl);
    const again = await load(new Date('2028-01-01T00:00:00Z'));
    expect(again).toEqual({ loaded: false, signIns: first.signIns });
    expect(await rowsOf(api.database.adminUrl)).toEqual(before);
  });

  test('its history, imported once more by hand, is known row by row', async () => {
    const bytes = await readFile(new URL('../../../prisma/demo/history.csv', import.meta.url));
    const done = await importHistory(inside, {
      file: { name: 'history.csv', bytes },
      today: '2027-03-02',
      skipBad: false,
    });
    expect([done.added, done.already]).toEqual([0, 300]);
  });

  test('everybody can sign in with what is printed', async () => {
    expect(first.signIns).toHaveLength(6);
    for (const { email, password, name } of first.signIns) {
      const response = await fetch(`${api.origin}/auth/sign-in/email`, {
        method: 'POST',
        headers: { 'content-type': 'application/json', origin: 'http://shop.test' },
        body: JSON.stringify({ email, password }),
      });
      expect(response.status).toBe(200);
      const cookie = response.headers
        .getSetCookie()
        .map((one) => one.split(';')[0])
        .join('; ');
      const answer = await ask<{ viewer: { person: { name: string } } }>(
        api.origin,
        '{ viewer { person { name } } }',
        {},
        cookie,
      );
      expect(answer.data?.viewer.person.name).toBe(name);
    }
  });

  test('cut off half-way it leaves nothing, and the next start loads it; accounts that are missing are made', async () => {
    const database = await createTestDatabase();
    const shops = () =>
      asAdmin<{ shops: string }>(database.adminUrl, 'SELECT count(*) AS shops FROM public.shop');
    const options = { appUrl: database.appUrl, uploadsDir: api.uploadsDir, now: NOW };
    const cut = loadDemo(options).then(
      () => 'loaded',
      () => 'cut off',
    );
    // As soon as its transaction has written a quote, its connections are ended from outside.
    const ended = async () =>
      (
        await asAdmin<{ ended: boolean }>(
          database.adminUrl,
          `SELECT pg_terminate_backend(pid) AS ended FROM pg_stat_activity
        WHERE datname = current_database() AND usename = 'fairlead_app' AND backend_xid IS NOT NULL AND query ILIKE '%quote%'`,
        )
      ).length > 0;
    for (let tries = 0; tries < 2000 && !(await ended()); tries += 1)
      await new Promise((resolve) => setTimeout(resolve, 2));
    expect(await cut).toBe('cut off');
    expect((await shops())[0]?.shops).toBe('0');

    const [one, other] = await Promise.all([loadDemo(options), loadDemo(options)]);
    expect([one.loaded, other.loaded].sort()).toEqual([false, true]);
    expect((await shops())[0]?.shops).toBe('1');

    await asAdmin(database.adminUrl, `DELETE FROM identity.account WHERE email LIKE 'marta%'`);
    expect((await loadDemo(options)).loaded).toBe(false);
    expect(await asAdmin(database.adminUrl, 'SELECT email FROM identity.account')).toHaveLength(6);
    await database.drop();
  });
});

describe('what is there', () => {
  test('nine aircraft, six people, sixty tasks, three hundred past jobs', async () => {
    const counts = await inside(async (tx) => ({
      aircraft: await tx.aircraft.count(),
      people: await tx.person.count(),
      tasks: await tx.task.count(),
      past: await tx.historyItem.count(),
      packages: await tx.package.count(),
      orders: await tx.workOrder.count(),
      quotes: await tx.quote.count(),
      findings: await tx.finding.count(),
    }));
    expect(counts).toEqual({
      aircraft: 9,
      people: 6,
      tasks: 60,
      past: 300,
      packages: 4,
      orders: 4,
      quotes: 9,
      findings: 5,
    });
  });

  test('states, as they are derived everywhere: here, released, planned; one finding offered; one quote sent', async () => {
    const orders = await inside((tx) =>
      tx.workOrder.findMany({
        orderBy: { number: 'asc' },
        select: { number: true, aircraft: { select: { registration: true } }, ...orderFacts },
      }),
    );
    expect(
      orders.map((order) => [order.number, order.aircraft.registration, orderState(order)]),
    ).toEqual([
      [559, 'QQ-117', 'here'],
      [560, 'QQ-163', 'released'],
      [561, 'QQ-188', 'here'],
      [562, 'QQ-156', 'planned'],
    ]);
    const findings = await inside((tx) =>
      tx.finding.findMany({
        orderBy: { foundAt: 'asc' },
        select: { title: true, ...findingFacts },
      }),
    );
    expect(findings.map((finding) => [finding.title, findingState(finding, TODAY)])).toEqual([
      ['Left fuel pump leaks fuel at its overboard drain', 'agreed'],
      ['Oil seep at rocker cover, cylinder 3', 'corrected'],
      ['Breather hose chafed by a tube', 'corrected'],
      ['Exhaust collector cracked behind the cabin-heat shroud', 'offered'],
      ['Fine black dust below the belts', 'assessed'],
    ]);
    const quotes = await inside((tx) =>
      tx.quote.findMany({
        where: { findingId: null },
        orderBy: { number: 'asc' },
        select: { aircraft: { select: { registration: true } }, ...quoteFacts },
      }),
    );
    expect(quotes.map((quote) => [quote.aircraft.registration, quoteState(quote, TODAY)])).toEqual([
      ['QQ-117', 'accepted'],
      ['QQ-163', 'accepted'],
      ['QQ-156', 'accepted'],
      ['QQ-188', 'accepted'],
      ['QQ-170', 'sent'],
    ]);
    const waiting = await inside((tx) =>
      tx.workItem.findMany({
        where: { order: { number: 561 } },
        orderBy: { position: 'asc' },
        select: { title: true, ...itemFacts },
      }),
    );
    expect(waiting.map((item) => itemState(item))).toEqual(['done', 'waiting', 'open']);
  });

  test('days are counted from the day of loading', async () => {
    const arrived = await inside((tx) =>
      tx.orderEvent.findFirstOrThrow({ where: { kind: 'arrived', order: { number: 559 } } }),
    );
    expect(arrived.at.toISOString()).toBe('2027-02-28T08:10:00.000Z');
    const authorization = await inside((tx) =>
      tx.certificate.findFirstOrThrow({ where: { kind: 'inspection_authorization' } }),
    );
    // 14 CFR 65.92: 31 March of an odd year.
    expect(authorization.validUntil?.toISOString().slice(0, 10)).toBe('2027-03-31');
  });

  test('photographs are kept in every size and say what they show', async () => {
    const photos = await inside((tx) => tx.photo.findMany({ include: { findings: true } }));
    expect(photos).toHaveLength(6);
    for (const photo of photos) {
      expect(photo.findings).toHaveLength(1);
      expect(photo.words.length).toBeGreaterThan(10);
      for (const size of ['original', 'large', 'thumb'] as const)
        expect(
          existsSync(path.join(api.uploadsDir, photoFile(DEMO_SHOP_ID, photo.sha256, size))),
        ).toBe(true);
    }
  });
});

describe('what the program computed', () => {
  test('stretches are those that follow from each person’s clock events, and no clock runs', async () => {
    const people = await inside((tx) =>
      tx.person.findMany({
        select: { clockEvents: true, stretches: { orderBy: { startedAt: 'asc' } } },
      }),
    );
    expect(people.flatMap(({ stretches }) => stretches)).toHaveLength(38);
    for (const { clockEvents, stretches } of people) {
      const expected = stretchesOf(clockEvents as ClockFact[]);
      expect(
        stretches.map(({ itemId, startedAt, endedAt }) => ({ itemId, startedAt, endedAt })),
      ).toEqual(expected);
      expect(stretches.every(({ endedAt }) => endedAt !== null)).toBe(true);
    }
  });

  test('hours of a quote are what the estimate gives from the clocked history', async () => {
    await inside(async (tx) => {
      const quote = await tx.quote.findFirstOrThrow({
        where: { aircraft: { registration: 'QQ-170' } },
        include: {
          aircraft: true,
          revisions: {
            include: { lines: { where: { taskId: { not: null } }, orderBy: { position: 'asc' } } },
          },
        },
      });
      const lines = quote.revisions[0]?.lines ?? [];
      expect(lines).toHaveLength(26);
      const estimates = await estimateTasks(tx, {
        taskIds: lines.map(({ taskId }) => taskId ?? ''),
        modelId: quote.aircraft.modelId,
        usePrior: true,
      });
      expect(
        lines.map(({ hoursP50, hoursP90, jobs }) => [
          hoursP50?.toFixed(6),
          hoursP90?.toFixed(6),
          jobs,
        ]),
      ).toEqual(
        estimates.map(({ estimate }) => [
          estimate.p50.toFixed(6),
          estimate.p90.toFixed(6),
          estimate.jobs,
        ]),
      );
      expect(lines.some(({ jobs }) => (jobs ?? 0) > 5)).toBe(true);
    });
  });

  test('the visit was quoted within its ceiling, and the finding goes past it', async () => {
    await inside(async (tx) => {
      const quotes = await tx.quote.findMany({
        where: { order: { number: 559 } },
        orderBy: { number: 'asc' },
        include: { finding: true, revisions: { include: { decisions: true } } },
      });
      const visit = quotes[0]?.revisions[0];
      const collector = quotes.find(({ finding }) => finding?.title.startsWith('Exhaust collector'))
        ?.revisions[0];
      const ceiling = visit?.decisions[0]?.ceilingMinor ?? 0n;
      expect(ceiling).toBe(340_000n);
      expect((visit?.likelyMinor ?? 0n) <= ceiling).toBe(true);
      expect((visit?.likelyMinor ?? 0n) + (collector?.lowMinor ?? 0n) > ceiling).toBe(true);
      expect(collector?.decisions).toEqual([]);
    });
  });

  test('the invoice adds up to the cent, is issued, chained and paid', async () => {
    const invoice = await inside((tx) =>
      tx.invoice.findFirstOrThrow({
        include: {
          lines: { orderBy: { position: 'asc' } },
          payments: true,
          ...{ creditNotes: invoiceFacts.creditNotes },
        },
      }),
    );
    const totals = documentTotals({
      currency: currency(invoice.currency),
      lines: invoice.lines.map((line) => ({
        id: line.id,
        quantity: line.quantity.toFixed(),
        unitPrice: line.unitPrice.toFixed(),
        taxCategory: line.taxCode as TaxCategory,
        taxRate: line.taxRate.toFixed(),
      })),
    });
    expect([totals.net, totals.taxTotal, totals.gross]).toEqual([
      invoice.netMinor,
      invoice.taxMinor,
      invoice.grossMinor,
    ]);
    // By hand: 285.00 + 0.8 h × 96.00 labour at 4 %; 38.00 + 7 × 11.50 + 4.00 + 6.80 parts at 8.5 %.
    expect([invoice.netMinor, invoice.taxMinor, invoice.grossMinor]).toEqual([
      49_110n,
      1_447n + 1_099n,
      51_656n,
    ]);
    expect([invoice.number, invoiceState(invoice)]).toEqual([411, 'issued']);
    expect(invoice.payments.map(({ amountMinor, method }) => [amountMinor, method])).toEqual([
      [51_656n, 'card'],
    ]);
  });

  test('what was used came off the shelves, none below zero', async () => {
    const lots = await inside((tx) => tx.lot.findMany({ include: { movements: true } }));
    for (const { onHand, movements } of lots) {
      const sum = movements.reduce((total, { quantity }) => total + Number(quantity), 0);
      expect(Number(onHand)).toBeCloseTo(sum, 9);
    }
    // 48 quarts received, 6 and 7 used.
    expect(Number(lots.find(({ tag }) => tag === 'EB-5103')?.onHand)).toBe(35);
  });

  test('two entries were signed with 14 CFR 43.9(a) content, and the chain holds before and after the audit is sealed', async () => {
    const entries = await inside((tx) =>
      tx.recordEntry.findMany({
        orderBy: { signedAt: 'asc' },
        include: { items: true, book: true },
      }),
    );
    expect(entries.map(({ book, items }) => [book.kind, items.length]).sort()).toEqual([
      ['airframe', 1],
      ['engine', 4],
    ]);
    for (const { book, text, signature, certificateNumber } of entries) {
      expect(signature).toBe('Hesper Lyle');
      expect(certificateNumber).toBe('DEMO-M-1489');
      // (a)(1) the work, (a)(2) the date, (a)(3) who did it, (a)(4) signature and certificate.
      const done =
        book.kind === 'engine'
          ? ['2027-02-27', 'no metal', 'Corrects finding 1']
          : ['2027-02-26', 'no water'];
      for (const part of [...done, 'Ruan Teasel', 'Hesper Lyle', 'DEMO-M-1489'])
        expect(text).toContain(part);
    }
    const faults = () => inside((tx) => tx.$queryRaw`SELECT * FROM chain_faults()`);
    expect(await faults()).toEqual([]);
    const pool = rolePool({ url: api.database.appUrl, role: roles.jobs, max: 1 });
    expect(await sealAudit(pool)).toBeGreaterThan(500);
    await pool.end();
    expect(await faults()).toEqual([]);
  });
});

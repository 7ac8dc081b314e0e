import { rm } from 'node:fs/promises';
import { globalId } from '@fairlead/api/ids';
import { keyFile } from '@fairlead/api/shop-key';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { startApi, type TestApi } from '../../support/api.ts';
import type { TestShop } from '../../support/shop.ts';
import { makeVisit, signEntry } from '../../support/visit.ts';
import { exported, shopWithRecords, verify } from './archive-shop.ts';

/** That a shop's key may be lost or replaced: what it signed holds, and every archive says how the next took over. */
let api: TestApi;
beforeAll(async () => {
  api = await startApi();
});
afterAll(async () => {
  expect(api.faults).toEqual([]);
  await api.stop();
});

interface Said {
  id?: string;
  to?: { fingerprint: string };
  code?: string;
  field?: string | null;
  message?: string;
}
async function change(
  shop: TestShop,
  over: Record<string, unknown> = {},
  role: Parameters<TestShop['as']>[0] = 'manager',
) {
  const { data } = await shop.as<{ changeShopKey: Said }>(
    role,
    `mutation($lost: Boolean!, $reason: String!, $signature: String!) { changeShopKey(lost: $lost, reason: $reason, signature: $signature) {
      ... on ShopKeyChange { id to { fingerprint } } ... on Refusal { code field message } } }`,
    { ...{ lost: false, reason: 'A new machine', signature: 'Test manager' }, ...over },
  );
  return data?.changeShopKey ?? {};
}
async function signOnce(shop: TestShop) {
  const visit = await makeVisit(shop);
  const signed = await signEntry(shop, {
    ...{ orderId: visit.order, bookId: globalId('RecordBook', shop.bookId) },
    outcome: 'airworthy',
  });
  expect(signed.id, signed.message).toBeDefined();
}
const keys = async (shop: TestShop) => {
  const { data } = await shop.as<{
    shopKeys: {
      data: { fingerprint: string; links: number; replaced: { lost: boolean } | null }[];
    };
  }>(
    'manager',
    '{ shopKeys { ... on QueryShopKeysSuccess { data { fingerprint links replaced { lost } } } } }',
  );
  return data?.shopKeys.data ?? [];
};

it('handed over: both sign it, both keys’ records hold, and an older archive still does', async () => {
  const { shop } = await shopWithRecords(api, 1);
  const before = await exported(api, shop);
  const [old] = await keys(shop);
  const { to } = await change(shop);
  await signOnce(shop);
  const { bytes } = await exported(api, shop);
  expect(await verify(bytes, { trusted: [old?.fingerprint ?? ''] })).toMatchObject({
    ...{ holds: true, faults: [], entries: 2 },
    keys: { [old?.fingerprint ?? '']: 1, [to?.fingerprint ?? '']: 1 },
    keyChanges: [{ lost: false, by: 'Test manager', reason: 'A new machine' }],
  });
  expect((await verify(before.bytes)).holds).toBe(true);
  expect(await keys(shop)).toMatchObject([
    { fingerprint: to?.fingerprint, links: 1, replaced: null },
    { fingerprint: old?.fingerprint, links: 1, replaced: { lost: false } },
  ]);
});

it('lost: the manager says so by name, and the archive shows the break', async () => {
  const { shop } = await shopWithRecords(api, 1);
  const [old] = await keys(shop);
  await rm(keyFile(api.uploadsDir, shop.shopId));
  expect(await change(shop)).toMatchObject({ code: 'AGAINST_RULE', field: 'lost' });
  const { to } = await change(shop, { lost: true, reason: 'The disk is gone' });
  await signOnce(shop);
  const { bytes } = await exported(api, shop);
  const verdict = await verify(bytes);
  expect(verdict).toMatchObject({
    ...{ holds: true, entries: 2 },
    keyChanges: [{ lost: true, by: 'Test manager', reason: 'The disk is gone' }],
  });
  // The old fingerprint vouches for nothing that came after.
  expect((await verify(bytes, { trusted: [old?.fingerprint ?? ''] })).holds).toBe(false);
  expect((await verify(bytes, { trusted: [to?.fingerprint ?? ''] })).holds).toBe(true);
});

it('twice in a row, each from the one before', async () => {
  const { shop } = await shopWithRecords(api, 1);
  await change(shop);
  await signOnce(shop);
  await change(shop, { reason: 'Another machine' });
  await signOnce(shop);
  const verdict = await verify((await exported(api, shop)).bytes);
  expect(verdict).toMatchObject({ holds: true, faults: [] });
  expect(verdict.keyChanges.map(({ reason }) => reason)).toEqual([
    'A new machine',
    'Another machine',
  ]);
});

it('is refused without the manager’s own name, by anybody else, and where nothing was signed yet; the key stays', async () => {
  const { shop } = await shopWithRecords(api, 1);
  const [old] = await keys(shop);
  expect(await change(shop, { signature: 'Somebody' })).toMatchObject({ field: 'signature' });
  expect(await change(shop, { reason: ' ' })).toMatchObject({ field: 'reason' });
  expect((await change(shop, {}, 'inspector')).code).toBe('FORBIDDEN');
  await signOnce(shop);
  expect(await keys(shop)).toMatchObject([{ fingerprint: old?.fingerprint, links: 2 }]);
});

it('the database refuses a link by a key that was replaced', async () => {
  const { shop } = await shopWithRecords(api, 1);
  const link = await shop.inside((tx) => tx.recordLink.findFirstOrThrow());
  await change(shop);
  const { id: _, ...same } = link;
  await expect(
    shop.inside((tx) => tx.recordLink.create({ data: { ...same, seq: 2 } })),
  ).rejects.toThrow(/replaced/);
});

it('flights after work, inoperative equipment and second looks stand in the chain', async () => {
  const { shop } = await shopWithRecords(api, 0);
  const visit = await makeVisit(shop, {
    ...{ items: [{ critical: true, second: true }] },
    findings: [{ title: 'Clock dead', class: 'discrepancy' }],
  });
  const findingId = globalId('Finding', visit.findingIds[0] ?? '');
  await shop.as(
    'inspector',
    'mutation($id: ID!) { putOffFinding(input: { findingId: $id, reason: "Next visit" }) { ... on Finding { id } } }',
    { id: findingId },
  );
  await shop.as(
    'inspector',
    `mutation($id: ID!) { leaveInoperative(input: { findingId: $id, equipment: "Clock", method: deactivated, placardAt: "on its face",
      notTypeBasis: "Data sheet", notListed: "Manual", notRuled: "91.205(b)", notDirected: "None found", noHazard: "Fuse out", ownList: false }) { ... on Finding { id } } }`,
    { id: findingId },
  );
  await shop.as(
    'inspector',
    'mutation($id: ID!) { noteFlightCheck(input: { orderId: $id, kind: asked, words: "Rotor tracked" }) { ... on WorkOrder { id } } }',
    { id: visit.order },
  );
  await signEntry(shop, {
    ...{ orderId: visit.order, bookId: globalId('RecordBook', shop.bookId), outcome: 'airworthy' },
  });
  const links = await shop.inside((tx) => tx.recordLink.findMany({ orderBy: { seq: 'asc' } }));
  expect(links.map(({ kind }) => kind)).toEqual(['inoperative', 'flight_check', 'entry']);
  const [left, flight, entry] = links.map(({ content }) => JSON.parse(content));
  expect(left).toMatchObject({ equipment: 'Clock', notRuled: '91.205(b)', by: 'Test inspector' });
  expect(flight).toMatchObject({ kind: 'asked', words: 'Rotor tracked' });
  expect(
    entry.items[0].looks.map(({ kind, by }: { kind: string; by: string }) => [kind, by]),
  ).toEqual([
    ['done', 'Test mechanic'],
    ['initialled', 'Test inspector'],
    ['second_inspected', 'Test manager'],
  ]);
  const { bytes } = await exported(api, shop);
  expect(await verify(bytes)).toMatchObject({
    ...{ holds: true, faults: [], entries: 1, flightChecks: 1, inoperative: 1 },
  });
});

import { randomUUID } from 'node:crypto';
import { stat } from 'node:fs/promises';
import { globalId } from '@fairlead/api/ids';
import { keyFile } from '@fairlead/api/shop-key';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { startApi, type TestApi } from '../../support/api.ts';
import { makeShop } from '../../support/shop.ts';
import { makeVisit, signEntry } from '../../support/visit.ts';
import { shopWithRecords } from './archive-shop.ts';

let api: TestApi;
beforeAll(async () => {
  api = await startApi();
});
afterAll(async () => {
  expect(api.faults).toEqual([]);
  await api.stop();
});

describe('the chain of an aircraft', () => {
  it('grows by one with each entry, in its transaction, and every link is signed', async () => {
    const { shop } = await shopWithRecords(api, 3);
    const links = await shop.inside((tx) =>
      tx.recordLink.findMany({ orderBy: { seq: 'asc' }, include: { key: true } }),
    );
    expect(links.map(({ seq, kind }) => [seq, kind])).toEqual(
      [1, 2, 3].map((seq) => [seq, 'entry']),
    );
    expect(new Set(links.map(({ key }) => key.fingerprint)).size).toBe(1);
    const { mode } = await stat(keyFile(api.uploadsDir, shop.shopId));
    expect(mode & 0o777).toBe(0o600);
  });
  it('has no gap and no twin when several sign at the same moment', async () => {
    const shop = await makeShop(api);
    const visits = await Promise.all([1, 2, 3, 4].map(() => makeVisit(shop)));
    await Promise.all(
      visits.map(({ order }) =>
        signEntry(shop, {
          orderId: order,
          bookId: globalId('RecordBook', shop.bookId),
          outcome: 'airworthy',
        }),
      ),
    );
    const links = await shop.inside((tx) => tx.recordLink.findMany({ orderBy: { seq: 'asc' } }));
    expect(links.map(({ seq }) => seq)).toEqual([1, 2, 3, 4]);
  });
  it('takes no link that does not join, and no change of one that does', async () => {
    const { shop } = await shopWithRecords(api, 1);
    const [link] = await shop.inside((tx) => tx.recordLink.findMany());
    const { id: _, ...again } = link!;
    for (const wrong of [
      { seq: 3 },
      { seq: 2, content: '{}' },
      { seq: 2, statement: link!.statement.replace('"seq":1', '"seq":2') },
    ])
      await expect(
        shop.inside((tx) =>
          tx.recordLink.create({ data: { ...again, subjectId: randomUUID(), ...wrong } }),
        ),
      ).rejects.toThrow(/does not join/);
    await expect(
      shop.inside((tx) => tx.recordLink.updateMany({ data: { content: '{}' } })),
    ).rejects.toThrow();
  });
  it('no entry is kept without its link', async () => {
    const { shop } = await shopWithRecords(api, 1);
    const [entry] = await shop.inside((tx) => tx.recordEntry.findMany());
    const { id: _, ...again } = entry!;
    await expect(shop.inside((tx) => tx.recordEntry.create({ data: again }))).rejects.toThrow(
      /only with its signed link/,
    );
    expect(await shop.inside((tx) => tx.recordEntry.count())).toBe(1);
  });
});

import { randomUUID } from 'node:crypto';
import { inRows, photosOfFinding } from '@fairlead/api/paper/pictures';
import sharp from 'sharp';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { startApi, type TestApi } from '../../support/api.ts';
import { makeShop, type TestShop } from '../../support/shop.ts';
import { uploaded } from '../../support/upload.ts';
import { expectDone, expectRefused, makeOrder, mutate } from './orders.ts';

/** A photo of a finding taken again after its correction. */

let api: TestApi;
beforeAll(async () => {
  api = await startApi();
});
afterAll(async () => {
  expect(api.faults).toEqual([]);
  await api.stop();
});

const picture = async (shop: TestShop, grey: number) => {
  const background = { r: grey, g: grey, b: grey };
  const jpeg = await sharp({ create: { width: 64, height: 48, channels: 3, background } })
    .jpeg()
    .toBuffer();
  return uploaded(api, await shop.cookie('mechanic'), jpeg, `Grey ${grey}`);
};

async function finding() {
  const shop = await makeShop(api);
  const order = await makeOrder(shop);
  const clientEventId = randomUUID();
  const before = await picture(shop, 40);
  expectDone(
    await mutate(shop, 'mechanic', 'noteFinding', {
      orderId: order.id,
      itemId: order.items[0]?.id,
      title: 'Chafed hose',
      words: '',
      zone: '',
      class: 'discrepancy',
      photoIds: [before],
      foundAt: new Date().toISOString(),
      clientEventId,
    }),
  );
  const add = (photoId: string, beforeId?: string) =>
    mutate(
      shop,
      'mechanic',
      'addFindingPhoto',
      { clientEventId, photoId, ...(beforeId && { beforeId }) },
      'photos { id } photoPairs { beforeId afterId } clientEventId',
    );
  return { shop, before, add, clientEventId };
}

describe('a photo taken again after the correction', () => {
  it('stands beside the one of before, and sent twice it does so once', async () => {
    const { shop, before, add, clientEventId } = await finding();
    const after = await picture(shop, 200);
    const [one, two] = await Promise.all([add(after, before), add(after, before)]);
    for (const said of [one, two])
      expect(expectDone(said)).toMatchObject({
        clientEventId,
        photos: [{ id: before }, { id: after }],
        photoPairs: [{ beforeId: before, afterId: after }],
      });
  });

  it('may be taken once more; a photo that belongs to none is in no pair', async () => {
    const { shop, before, add } = await finding();
    const [after, again, other] = [
      await picture(shop, 200),
      await picture(shop, 210),
      await picture(shop, 90),
    ];
    await add(after, before);
    await add(other);
    expect(expectDone(await add(again, before)).photoPairs).toEqual([
      { beforeId: before, afterId: after },
      { beforeId: before, afterId: again },
    ]);
  });

  it('is refused beside a photo of another finding, or one that was itself taken after', async () => {
    const { shop, before, add } = await finding();
    const elsewhere = await finding();
    const after = await picture(shop, 200);
    expectRefused(
      await add(after, elsewhere.before),
      'BAD_INPUT',
      /none of finding 1: needed is one of its own/,
    );
    expectRefused(await add(after, after), 'BAD_INPUT', /needed is one of its own/);
    await add(after, before);
    expectRefused(
      await add(await picture(shop, 210), after),
      'BAD_INPUT',
      /itself taken after the correction/,
    );
  });

  it('cannot be paired over findings by anybody: the database refuses it', async () => {
    const { shop, add } = await finding();
    const loose = await picture(shop, 200);
    await add(loose);
    const rows = await shop.inside((tx) => tx.findingPhoto.findMany({ orderBy: { id: 'asc' } }));
    const [first, second] = rows;
    if (!first || !second) throw new Error('two photos');
    const insert = (beforeId: string) =>
      shop.inside((tx) =>
        tx.findingPhoto.create({
          data: { findingId: first.findingId, photoId: beforeId, position: 9, beforeId },
        }),
      );
    await expect(insert(randomUUID())).rejects.toThrow();
    await expect(insert(first.photoId)).rejects.toThrow();
  });
});

describe('on paper', () => {
  it('one of after follows the one of before, and says so to eye and ear', () => {
    const photos = ['a', 'b', 'c'].map((id) => ({ id, words: id === 'b' ? 'Hose' : '' }));
    const wanted = photosOfFinding({
      number: 3,
      title: 'Chafed hose',
      photos,
      photoPairs: [{ beforeId: 'b', afterId: 'c' }],
    });
    expect(wanted).toEqual([
      { id: 'a', caption: 'Finding 3', alt: 'Photo of finding 3: Chafed hose' },
      { id: 'b', caption: 'Finding 3, before · Hose', alt: 'Hose, before' },
      {
        id: 'c',
        caption: 'Finding 3, after',
        alt: 'Photo of finding 3: Chafed hose, after',
        after: true,
      },
    ]);
  });

  it('the two stand in one row', () => {
    const p = (id: number, after = false) => ({ id, ...(after && { after: true as const }) });
    const rows = (...pictures: ReturnType<typeof p>[]) =>
      inRows(pictures, 3).map((row) => row.map(({ id }) => id));
    expect(rows()).toEqual([]);
    expect(rows(p(1), p(2), p(3), p(4))).toEqual([[1, 2, 3], [4]]);
    expect(rows(p(1), p(2), p(3), p(4, true))).toEqual([
      [1, 2],
      [3, 4],
    ]);
    expect(rows(p(1), p(2), p(3, true), p(4))).toEqual([[1, 2, 3], [4]]);
    // More of after than a row holds go on beneath.
    expect(rows(p(1), p(2, true), p(3, true), p(4, true), p(5))).toEqual([
      [1, 2, 3],
      [4, 5],
    ]);
  });
});

import { randomUUID } from 'node:crypto';
import { globalId } from '@fairlead/api/ids';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { startApi, type TestApi } from '../../support/api.ts';
import { makeShop, type TestShop } from '../../support/shop.ts';
import {
  expectDone,
  expectRefused,
  makeAgreedQuote,
  makeOrder,
  mutate,
  type Outcome,
} from './orders.ts';

let api: TestApi;
beforeAll(async () => {
  api = await startApi();
});
afterAll(async () => {
  expect(api.faults).toEqual([]);
  await api.stop();
});

const fields =
  'number title words zone class provisional state meaning foundAt foundBy { name } item { id } order { id } photos { id url thumbUrl width words }';
const note = (
  shop: TestShop,
  orderId: string,
  over: Record<string, unknown> = {},
  role: 'mechanic' | 'front_desk' = 'mechanic',
): Promise<Outcome> =>
  mutate(
    shop,
    role,
    'noteFinding',
    {
      orderId,
      title: 'Grey streak on the shroud',
      words: 'Left side, 40 mm long.',
      zone: 'engine',
      class: 'discrepancy',
      photoIds: [],
      foundAt: '2026-03-02T10:00:00Z',
      clientEventId: randomUUID(),
      ...over,
    },
    fields,
  );
const addPhotos = (shop: TestShop, count: number) =>
  shop.inside(async (tx) => {
    const ids: string[] = [];
    for (let n = 0; n < count; n += 1) {
      const { id } = await tx.photo.create({
        data: {
          shopId: shop.shopId,
          sha256: randomUUID().replaceAll('-', '').repeat(2),
          mime: 'image/jpeg',
          width: 800,
          height: 600,
          bytes: 1000,
          words: `Picture ${n}`,
        },
      });
      ids.push(globalId('Photo', id));
    }
    return ids;
  });
const assess = (
  shop: TestShop,
  findingId: unknown,
  over = {},
  role: 'inspector' | 'manager' | 'mechanic' = 'inspector',
) =>
  mutate(
    shop,
    role,
    'assessFinding',
    {
      findingId,
      class: 'unairworthy',
      meaning: 'The exhaust is cracked; it may leak into the cabin.',
      ...over,
    },
    fields,
  );

describe('noting a finding', () => {
  it('keeps what was found, where, by whom, with its pictures in order', async () => {
    const shop = await makeShop(api);
    const order = await makeOrder(shop);
    const photoIds = await addPhotos(shop, 3);
    photoIds.reverse();
    const finding = expectDone(
      await note(shop, order.id, {
        itemId: order.items[0]?.id,
        photoIds,
        title: 'Grey streak – « Ölspur » 測',
      }),
    );
    expect(finding).toMatchObject({
      number: 1,
      title: 'Grey streak – « Ölspur » 測',
      zone: 'engine',
      class: 'discrepancy',
      provisional: true,
      state: 'noted',
      meaning: '',
      foundAt: '2026-03-02T10:00:00.000Z',
      foundBy: { name: 'Test mechanic' },
      item: { id: order.items[0]?.id },
      order: { id: order.id },
    });
    expect(
      (finding.photos as { id: string; url: string; thumbUrl: string }[]).map(({ id }) => id),
    ).toEqual(photoIds);
    expect(finding.photos).toMatchObject([
      {
        url: `/photos/${photoIds[0]}/original`,
        thumbUrl: `/photos/${photoIds[0]}/thumb`,
        words: 'Picture 2',
      },
      {},
      {},
    ]);
    expect(expectDone(await note(shop, order.id))).toMatchObject({ number: 2, item: null });
  });

  it('the same one sent five times at once is noted once; different ones at once get different numbers', async () => {
    const shop = await makeShop(api);
    const order = await makeOrder(shop);
    await shop.cookie('mechanic');
    const clientEventId = randomUUID();
    const same = await Promise.all(
      Array.from({ length: 5 }, () => note(shop, order.id, { clientEventId })),
    );
    expect(new Set(same.map(({ id }) => id)).size).toBe(1);
    const different = await Promise.all(Array.from({ length: 6 }, () => note(shop, order.id)));
    expect(different.map(({ number }) => number).sort()).toEqual([2, 3, 4, 5, 6, 7]);
  });

  it('refuses what it cannot keep, and keeps nothing of it', async () => {
    const shop = await makeShop(api);
    const other = await makeShop(api);
    const [order, second, theirs] = [
      await makeOrder(shop),
      await makeOrder(shop),
      await makeOrder(other),
    ];
    const [theirPhoto] = await addPhotos(other, 1);
    expectRefused(await note(shop, theirs.id), 'NOT_FOUND', /no such order/);
    expectRefused(
      await note(shop, order.id, { itemId: theirs.items[0]?.id }),
      'NOT_FOUND',
      /no such item/,
    );
    expectRefused(
      await note(shop, order.id, { itemId: second.items[0]?.id }),
      'BAD_INPUT',
      /item is of another order/,
    );
    expectRefused(
      await note(shop, order.id, { photoIds: [theirPhoto] }),
      'NOT_FOUND',
      /no such photo/,
    );
    expectRefused(
      await note(shop, order.id, {
        photoIds: Array.from({ length: 13 }, () => globalId('Photo', randomUUID())),
      }),
      'BAD_INPUT',
      /13 entries: at most 12/,
    );
    expectRefused(
      await note(shop, order.id, { title: '  ' }),
      'BAD_INPUT',
      /title has 0 characters/,
    );
    expectRefused(
      await note(shop, order.id, { title: 'x'.repeat(201) }),
      'BAD_INPUT',
      /title has 201/,
    );
    expectRefused(
      await note(shop, order.id, { foundAt: '1990-01-01T00:00:00Z' }),
      'BAD_INPUT',
      /foundAt is 1990/,
    );
    expectRefused(
      await note(shop, order.id, { clientEventId: '7' }),
      'BAD_INPUT',
      /needed is a UUID/,
    );
    expectRefused(await note(shop, order.id, {}, 'front_desk'), 'FORBIDDEN', /mechanic/);
    await shop.inside((tx) =>
      tx.orderEvent.create({ data: { orderId: second.orderId, kind: 'cancelled' } }),
    );
    expectRefused(await note(shop, second.id), 'AGAINST_RULE', /was cancelled/);
    const planned = await makeOrder(shop, { arrived: false });
    expectRefused(
      await note(shop, planned.id),
      'AGAINST_RULE',
      /^QQ-\w+ has not arrived for order 3: receive it first\.$/,
    );
    expect(await shop.inside((tx) => tx.finding.count())).toBe(0);
    const script = await note(shop, order.id, { words: '<script>alert(1)</script>' });
    expect(script.words).toBe('<script>alert(1)</script>');
  });
});

it('what was found before the release and sent after it is still noted', async () => {
  const shop = await makeShop(api);
  const order = await makeOrder(shop);
  await shop.inside((tx) =>
    tx.orderEvent.create({
      data: { orderId: order.orderId, kind: 'released', outcome: 'airworthy' },
    }),
  );
  expectDone(await note(shop, order.id));
});

describe('assessing and putting off', () => {
  it('an inspector gives the class and its meaning; assessed again the last word counts', async () => {
    const shop = await makeShop(api);
    const { id } = await note(shop, (await makeOrder(shop)).id);
    expect(await assess(shop, id)).toMatchObject({
      state: 'assessed',
      class: 'unairworthy',
      provisional: false,
      meaning: 'The exhaust is cracked; it may leak into the cabin.',
    });
    expectDone(await assess(shop, id));
    expect(await shop.inside((tx) => tx.findingEvent.count())).toBe(1);
    expect(await assess(shop, id, { class: 'observation' })).toMatchObject({
      class: 'observation',
    });
  });

  it('a manager needs a certificate that is valid today; a mechanic may not', async () => {
    const shop = await makeShop(api);
    const { id } = await note(shop, (await makeOrder(shop)).id);
    expectRefused(await assess(shop, id, {}, 'mechanic'), 'FORBIDDEN', /inspector or the manager/);
    expectRefused(await assess(shop, id, {}, 'manager'), 'FORBIDDEN', /you hold none/);
    const certificate = (validUntil: string) =>
      shop.inside((tx) =>
        tx.certificate.create({
          data: {
            personId: shop.people.manager.id,
            kind: 'mechanic_airframe',
            number: '1',
            validFrom: new Date('2020-01-01'),
            validUntil: new Date(validUntil),
          },
        }),
      );
    await certificate('2021-01-01');
    expectRefused(await assess(shop, id, {}, 'manager'), 'FORBIDDEN', /valid today; you hold none/);
    await certificate('2199-01-01');
    expectDone(await assess(shop, id, {}, 'manager'));
    expectRefused(await assess(shop, id, { meaning: '' }), 'BAD_INPUT', /meaning has 0 characters/);
    expectRefused(await assess(await makeShop(api), id), 'NOT_FOUND', /no such finding/);
  });

  it('put off keeps its class and says why; a corrected one cannot be put off', async () => {
    const shop = await makeShop(api);
    const order = await makeOrder(shop);
    const { id } = await note(shop, order.id);
    await assess(shop, id);
    const putOff = (findingId: unknown) =>
      mutate(
        shop,
        'front_desk',
        'putOffFinding',
        { findingId, reason: 'At the next 100-hour.' },
        'state class putOffBecause meaning',
      );
    expect(await putOff(id)).toMatchObject({
      state: 'put_off',
      class: 'unairworthy',
      putOffBecause: 'At the next 100-hour.',
      meaning: 'The exhaust is cracked; it may leak into the cabin.',
    });
    expectDone(await putOff(id));
    expect(await shop.inside((tx) => tx.findingEvent.count())).toBe(2);
    expect(await assess(shop, id)).toMatchObject({ state: 'assessed' });

    const key =
      Buffer.from(id ?? '', 'base64url')
        .toString()
        .split(':')[1] ?? '';
    const [line] = await makeAgreedQuote(shop, order.orderId, { lines: [{}], ceilings: [100n] });
    const item = await shop.inside((tx) =>
      tx.workItem.create({
        data: {
          orderId: order.orderId,
          position: 9,
          title: 'Correct it',
          jasc: '7810',
          findingId: key,
          quoteLineId: line ?? null,
        },
      }),
    );
    await mutate(shop, 'mechanic', 'finishItem', {
      itemId: globalId('WorkItem', item.id),
      workDone: 'Replaced it.',
    });
    expectRefused(await putOff(id), 'CONFLICT', /it is corrected already/);
  });
});

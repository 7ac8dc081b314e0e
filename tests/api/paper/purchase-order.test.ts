import { writeFile } from 'node:fs/promises';
import { globalId } from '@fairlead/api/ids';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { startApi, type TestApi } from '../../support/api.ts';
import { soldUpTo } from '../stores/past-yes.ts';
import { purchaseDrafted } from './full-shop.ts';
import { picture, poppler, print, words } from './printed.ts';

let api: TestApi;
beforeAll(async () => {
  api = await startApi();
});
afterAll(async () => {
  expect(api.faults).toEqual([]);
  await api.stop();
});

it.skipIf(!poppler)(
  'a purchase order says what, how many, at what cost and together, and that it is cancelled',
  async () => {
    const { shop, id, number } = await purchaseDrafted(api);
    const { bytes } = await print(api, shop, `purchase-order/${id}.pdf`);
    if (process.env['LOOK_AT'])
      await writeFile(process.env['LOOK_AT'], await picture(bytes, { dpi: 90 }));
    const said = await words(bytes);
    // 1.5, 2.5 and 3.5 × 101.125 = 151.6875, 252.8125 and 353.9375, each rounded once, half away from zero (EN 16931, BT-131).
    for (const text of [
      `Purchase order ${number}`,
      'To Invented Hose Works',
      'orders@hose.example',
      'KH-1-0410',
      '101.125',
      '151.69',
      '252.81',
      '353.94',
      '758.44',
      '14 Mar 2099',
      'Leave it with the harbour office after five.',
      'Send each part with its release certificate',
    ])
      expect(said).toContain(text);
    expect(said).not.toMatch(/cancelled/i);
    await shop.as(
      'manager',
      'mutation($input: CancelPurchaseInput!) { cancelPurchase(input: $input) { ... on PurchaseOrder { id } } }',
      { input: { orderId: id, reason: 'Ordered elsewhere' } },
    );
    const cancelled = await words((await print(api, shop, `purchase-order/${id}.pdf`)).bytes);
    expect(cancelled).toContain('Cancelled: nothing more is expected of it.');
  },
);

it.skipIf(!poppler)(
  'names our order and item where a line is bought for work, and not whose aircraft it is for',
  async () => {
    const { shop, visit, partId } = await soldUpTo(api, 3600);
    const { number } = await shop.inside((tx) =>
      tx.workOrder.findUniqueOrThrow({ where: { id: visit.orderId } }),
    );
    const { data } = await shop.as<{ done: { id: string } }>(
      'front_desk',
      'mutation($input: DraftPurchaseInput!) { done: draftPurchase(input: $input) { ... on PurchaseOrder { id } } }',
      {
        input: {
          supplier: 'Invented Supplies',
          lines: [
            {
              ...{ partId: globalId('Part', partId), quantity: '1', unitCost: '5' },
              itemId: visit.items[0],
            },
          ],
        },
      },
    );
    const said = await words((await print(api, shop, `purchase-order/${data?.done.id}.pdf`)).bytes);
    expect(said.replaceAll(/\s+/g, ' ')).toContain(`Gasket, for our order ${number}, item 1`);
    const { registration } = await shop.inside((tx) => tx.aircraft.findFirstOrThrow());
    expect(said).not.toContain(registration);
  },
);

it.skipIf(!poppler)('what asks for more prints how much, and no hours', async () => {
  const { shop, visit } = await soldUpTo(api, 8280);
  const { data } = await shop.as<{ done: { id: string } }>(
    'front_desk',
    'mutation($input: AskForMoreInput!) { done: askForMore(input: $input) { ... on Quote { id } } }',
    { input: { orderId: visit.order } },
  );
  const said = (
    await words((await print(api, shop, `quote/${data?.done.id}.pdf`)).bytes)
  ).replaceAll(/\s+/g, ' ');
  expect(said).toContain('This asks for 18.50 USD more, before tax');
  expect(said).not.toMatch(/All its work together|Firm/);
});

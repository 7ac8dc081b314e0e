/** A purchase order goes to its supplier by mail, with its PDF, or not at all. */
import { afterAll, beforeAll, expect, it } from 'vitest';
import { startApi, type TestApi } from '../../support/api.ts';
import { startMailServer } from '../../support/mail-server.ts';
import { purchaseDrafted } from '../paper/full-shop.ts';
import { post, settings, settled, withWorker } from './post-shop.ts';

let api: TestApi;
beforeAll(async () => {
  api = await startApi();
});
afterAll(async () => {
  expect(api.faults).toEqual([]);
  await api.stop();
});

const SEND =
  'mutation($input: SendPurchaseInput!) { sendPurchase(input: $input) { ... on PurchaseOrder { state } ... on Refusal { code } } }';

it('sent by e-mail, an order arrives at its supplier once, with its PDF; sent otherwise it is not mailed', async () => {
  const { shop, id, number } = await purchaseDrafted(api);
  const server = await startMailServer();
  await withWorker(api, settings(server.port), async () => {
    const input = { orderId: id, channel: 'email' };
    const answers = await Promise.all([1, 2].map(() => shop.as('front_desk', SEND, { input })));
    expect(answers.map(({ data }) => JSON.stringify(data)).sort()).toEqual([
      '{"sendPurchase":{"code":"AGAINST_RULE"}}',
      '{"sendPurchase":{"state":"sent"}}',
    ]);
    const [mail, ...more] = await settled(shop, 'sent');
    expect(more).toEqual([]);
    expect(mail).toMatchObject({
      to: 'orders@hose.example',
      toName: 'Invented Hose Works',
      subject: `Purchase order ${number} of Test Shop`,
      about: `Purchase order ${number}, Invented Hose Works`,
      queuedBy: { name: 'Test front_desk' },
    });
  });
  const [arrived] = server.arrived;
  expect(server.arrived).toHaveLength(1);
  expect(arrived?.to).toEqual(['orders@hose.example']);
  expect(arrived?.parsed.text).toContain('of 3 lines');
  expect(arrived?.parsed.text).toContain('We expect it on 2099-03-14.');
  const [pdf] = arrived?.parsed.attachments ?? [];
  expect(pdf?.filename).toBe(`purchase-order-${number}.pdf`);
  expect(pdf?.content.subarray(0, 5).toString()).toBe('%PDF-');
  await server.close();

  const other = await purchaseDrafted(api);
  await other.shop.as('front_desk', SEND, { input: { orderId: other.id, channel: 'telephone' } });
  expect(await post(other.shop)).toEqual([]);
});

import { randomUUID } from 'node:crypto';
import type { TestShop } from '../../support/shop.ts';

/** One order with an item and a sent quote, for attempts to break what hangs on them. */
export async function makeOrder(shop: TestShop) {
  return shop.inside(async (tx) => {
    const order = await tx.workOrder.create({
      data: { aircraftId: shop.aircraftId, title: 'Test order' },
    });
    const item = await tx.workItem.create({
      data: { orderId: order.id, position: 1, title: 'Test item', jasc: '7810' },
    });
    const other = await tx.workItem.create({
      data: { orderId: order.id, position: 2, title: 'Other item', jasc: '7810' },
    });
    const quote = await tx.quote.create({
      data: {
        aircraftId: shop.aircraftId,
        contactId: shop.contactId,
        orderId: order.id,
        title: 'Test quote',
      },
    });
    const revision = await tx.quoteRevision.create({
      data: {
        quoteId: quote.id,
        revision: 1,
        expiresOn: new Date('2099-01-01'),
        currency: 'USD',
        lowMinor: 1,
        likelyMinor: 2,
        p80Minor: 3,
        highMinor: 4,
        taxMinor: 0,
        hoursP10: 1,
        hoursP50: 1,
        hoursMean: 1,
        hoursP80: 1,
        hoursP90: 1,
      },
    });
    return {
      orderId: order.id,
      itemId: item.id,
      otherItemId: other.id,
      quoteId: quote.id,
      revisionId: revision.id,
    };
  });
}

export const decide = (shop: TestShop, revisionId: string) =>
  shop.inside(async (tx) => {
    if ((await tx.quoteSending.count({ where: { revisionId } })) === 0)
      await tx.quoteSending.create({ data: { revisionId, channel: 'email' } });
    return tx.decision.create({
      data: {
        revisionId,
        contactId: shop.contactId,
        choice: 'go_ahead',
        channel: 'telephone',
        wordsShown: 'Read out.',
        ceilingMinor: 100_00,
        currency: 'USD',
        decidedAt: new Date(),
      },
    });
  });

/** A draft invoice over one line of `net` minor units. */
export const draftInvoice = (shop: TestShop, orderId: string, net = 1000n, lineNet = net) =>
  shop.inside(async (tx) => {
    const invoice = await tx.invoice.create({
      data: {
        orderId,
        contactId: shop.contactId,
        currency: 'USD',
        netMinor: net,
        taxMinor: 0,
        grossMinor: net,
        agreedMinor: net,
      },
    });
    await tx.invoiceLine.create({
      data: {
        invoiceId: invoice.id,
        position: 1,
        title: 'Line',
        category: 'labour',
        quantity: 1,
        unit: 'hour',
        unitPrice: '10',
        netMinor: lineNet,
        taxCode: 'S',
        taxRate: 0,
      },
    });
    return invoice.id;
  });

export const uuid = randomUUID;

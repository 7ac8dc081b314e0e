import { globalId } from '@fairlead/api/ids';
import type { Role } from '@fairlead/database';
import type { TestShop } from '../../support/shop.ts';
import { type Billed, INVOICE, makeSold, type SoldVisit } from './billing.ts';

export const today = () => new Date().toISOString().slice(0, 10);
export interface Sale {
  id: string;
  soldOn: string;
  seller: { name: string };
  buyer: { name: string };
  orders: { id: string }[];
}
export interface Sold {
  code?: string;
  message?: string;
  sales: Sale[];
  contacts: { capacity: string; contact: { name: string } }[];
}
export const sell = async (shop: TestShop, input: object = {}, role: Role = 'front_desk') => {
  const { data, errors } = await shop.as<{ done: Sold }>(
    role,
    `mutation($input: SellAircraftInput!) { done: sellAircraft(input: $input) { ... on Refusal { code message }
      ... on Aircraft { sales { id soldOn seller { name } buyer { name } orders { id } } contacts { capacity contact { name } } } } }`,
    { input: { aircraftId: globalId('Aircraft', shop.aircraftId), soldOn: today(), ...input } },
  );
  if (!data) throw new Error(JSON.stringify(errors));
  return data.done;
};
export const buyerOf = async (shop: TestShop) => {
  const { id } = await shop.inside((tx) =>
    tx.contact.create({
      data: { shopId: shop.shopId, name: 'Test Buyer', email: 'buyer@strand.example' },
    }),
  );
  return { id, global: globalId('Contact', id) };
};
export const standOf = async (shop: TestShop, { order }: SoldVisit) => {
  const { data } = await shop.as<{
    node: {
      agreed: string;
      costSoFar: string;
      beyondAuthority: string;
      items: { state: string }[];
    };
  }>(
    'front_desk',
    'query($id: ID!) { node(id: $id) { ... on WorkOrder { agreed costSoFar beyondAuthority items { state } } } }',
    { id: order },
  );
  return data?.node;
};
export const draftOf = async (shop: TestShop, { order }: SoldVisit, saleId: string | undefined) => {
  const { data, errors } = await shop.as<{
    done: Billed & { contact: { name: string }; sale: { id: string } | null };
  }>(
    'front_desk',
    `mutation($input: DraftInvoiceInput!) { done: draftInvoice(input: $input) { ... on Invoice { ${INVOICE} contact { name } sale { id } } ... on Refusal { code message } } }`,
    { input: { orderId: order, saleId } },
  );
  if (!data) throw new Error(JSON.stringify(errors));
  return data.done;
};

/** Done by time, an hour; a firm price of 400.00, begun and not done, an hour; and work by time that nobody began. */
export const visitOf = (shop: TestShop) =>
  makeSold(shop, {
    lines: [
      { title: 'Starter', likelyMinor: 9_500n },
      { title: 'Inspection', pricing: 'fixed', likelyMinor: 40_000n, unitPrice: '400' },
      { title: 'Paint', likelyMinor: 60_000n },
    ],
    ceiling: 120_000n,
    items: [
      { line: 0, title: 'Starter', seconds: 3600 },
      { line: 1, title: 'Inspection', seconds: 3600, workDone: null },
      { line: 2, title: 'Paint', workDone: null },
    ],
  });
export const clocked = (
  shop: TestShop,
  itemId: string | undefined,
  startedAt: Date,
  seconds: number,
) =>
  shop.inside((tx) =>
    tx.stretch.create({
      data: {
        ...{ personId: shop.people.mechanic.id, itemId: itemId ?? '', startedAt },
        endedAt: new Date(startedAt.getTime() + seconds * 1000),
      },
    }),
  );

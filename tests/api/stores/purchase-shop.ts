import { globalId } from '@fairlead/api/ids';
import type { Role } from '@fairlead/database';
import type { TestApi } from '../../support/api.ts';
import type { TestShop } from '../../support/shop.ts';
import { stocked } from './stocked.ts';

export interface Order {
  id: string;
  number: number;
  state: string;
  total: string;
  lines: { id: string; quantity: string; received: string; net: string }[];
  code?: string;
  message?: string;
  field?: string;
}
export async function order(
  shop: TestShop,
  name: 'draftPurchase' | 'sendPurchase' | 'cancelPurchase',
  input: Record<string, unknown>,
  role: Role = 'front_desk',
): Promise<Order> {
  const type = `${name[0]?.toUpperCase()}${name.slice(1)}Input`;
  const answer = await shop.as<{ done: Order }>(
    role,
    `mutation($input: ${type}!) { done: ${name}(input: $input) { ... on PurchaseOrder { id number state total lines { id quantity received net } } ... on Refusal { code message field } } }`,
    { input },
  );
  if (!answer.data) throw new Error(JSON.stringify(answer));
  return answer.data.done;
}
export const readOrder = async (shop: TestShop, id: string) => {
  const { data } = await shop.as<{ node: Order }>(
    'mechanic',
    'query($id: ID!) { node(id: $id) { ... on PurchaseOrder { id number state total lines { id quantity received net } } } }',
    { id },
  );
  return data?.node;
};

export const soon = new Date(Date.now() + 4 * 86_400_000).toISOString().slice(0, 10);
export async function ordered(api: TestApi, over: Record<string, unknown> = {}) {
  const made = await stocked(api);
  const draft = {
    supplier: 'Invented Supplies',
    supplierEmail: 'orders@supplies.example',
    expectedOn: soon,
    lines: [
      { partId: globalId('Part', made.part.id), quantity: '6', unitCost: '4.125' },
      { partId: globalId('Part', made.part.id), quantity: '2.5', unitCost: '0' },
    ],
    ...over,
  };
  return { ...made, draft, made: await order(made.shop, 'draftPurchase', draft) };
}
export const partOf = async (shop: TestShop, id: string) => {
  const { data } = await shop.as<{ node: { onOrder: string; free: string; shortage: string } }>(
    'front_desk',
    'query($id: ID!) { node(id: $id) { ... on Part { onOrder free shortage(wanted: "50") } } }',
    { id: globalId('Part', id) },
  );
  return data?.node;
};

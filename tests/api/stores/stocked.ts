import { globalId } from '@fairlead/api/ids';
import type { Role } from '@fairlead/database';
import type { TestApi } from '../../support/api.ts';
import { makeShop, type TestShop } from '../../support/shop.ts';
import { makeVisit, type Visit } from '../../support/visit.ts';

export interface LotAnswer {
  id: string;
  onHand: string;
  available: string;
  code?: string;
  message?: string;
  field?: string;
}

type Move =
  | 'receiveLot'
  | 'issuePart'
  | 'returnPart'
  | 'scrapPart'
  | 'countLot'
  | 'reservePart'
  | 'releaseReserved';

/** Moves something in stores as somebody of the shop; answers the lot as it is after, or the refusal. */
export async function move(
  shop: TestShop,
  name: Move,
  input: Record<string, unknown>,
  role: Role = 'mechanic',
): Promise<LotAnswer> {
  const type =
    name === 'releaseReserved'
      ? 'ReservePartInput'
      : `${name[0]?.toUpperCase()}${name.slice(1)}Input`;
  const answer = await shop.as<{ done: LotAnswer }>(
    role,
    `mutation($input: ${type}!) { done: ${name}(input: $input) { ... on Lot { id onHand available } ... on Refusal { code message field } } }`,
    { input },
  );
  if (!answer.data) throw new Error(JSON.stringify(answer));
  return answer.data.done;
}

/** A shop with one part, one delivery of ten of it, and an aircraft that is here. */
export async function stocked(api: TestApi, over: Record<string, unknown> = {}) {
  const shop = await makeShop(api);
  const part = await shop.inside((tx) =>
    tx.part.create({
      data: { shopId: shop.shopId, number: 'G-1', title: 'Gasket', unitPrice: '12.5' },
    }),
  );
  const visit: Visit = await makeVisit(shop);
  const delivery = {
    partId: globalId('Part', part.id),
    supplier: 'Invented Supplies',
    batch: 'B-7',
    tag: 'T-9',
    quantity: '10',
    unitCost: '4.2',
    ...over,
  };
  const lot = await move(shop, 'receiveLot', delivery);
  return { shop, visit, delivery, part, lot, itemId: visit.items[0] ?? '' };
}

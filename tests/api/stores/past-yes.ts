import { globalId as gid } from '@fairlead/api/ids';
import type { Prisma } from '@fairlead/database';
import type { TestApi } from '../../support/api.ts';
import { makeShop, type TestShop } from '../../support/shop.ts';
import { makeSold, type SoldVisit } from '../books/billing.ts';

/** A hundred of a part, with a release certificate. */
export const lotOf = (shop: TestShop, partId: string): Promise<string> =>
  shop.inside(async (tx) => {
    const lot = await tx.lot.create({
      data: {
        ...{ partId, supplier: 'S', batch: 'B', tag: 'T-1', unitCost: '5' },
        receivedOn: new Date('2026-01-01'),
      },
    });
    await tx.stockMovement.create({ data: { lotId: lot.id, kind: 'receive', quantity: '100' } });
    return lot.id;
  });

/** Two hours at 95.00 agreed up to 200.00, and a lot of something at 12.50. */
export async function soldUpTo(
  api: TestApi,
  seconds: number,
  {
    ceiling = 20_000n,
    ...shopData
  }: { ceiling?: bigint } & Prisma.ShopUpdateManyMutationInput = {},
) {
  const shop = await makeShop(api);
  await shop.inside((tx) =>
    tx.shop.updateMany({ data: { billingStep: '0.1', billingRounding: 'up', ...shopData } }),
  );
  const visit = await makeSold(shop, {
    lines: [{ title: 'Starter replaced', likelyMinor: 19_000n }],
    ceiling,
    items: [{ line: 0, seconds }],
  });
  const { id: partId } = await shop.inside((tx) =>
    tx.part.create({
      data: { shopId: shop.shopId, number: 'P-1', title: 'Gasket', unitPrice: '12.5' },
    }),
  );
  const lotId = await lotOf(shop, partId);
  return { shop, visit, lotId, partId };
}

export interface Refusal {
  code?: string;
  message?: string;
  field?: string | null;
}
/** One of the lot to the first item of the visit. */
export async function issue(
  shop: TestShop,
  visit: SoldVisit,
  lotId: string,
  over: Record<string, unknown> = {},
): Promise<Refusal> {
  const { data, errors } = await shop.as<{ issuePart: Refusal }>(
    'mechanic',
    'mutation($input: IssuePartInput!) { issuePart(input: $input) { ... on Refusal { code message field } ... on Lot { id } } }',
    {
      input: {
        lotId: gid('Lot', lotId),
        itemId: gid('WorkItem', visit.itemIds[0] ?? ''),
        quantity: '1',
        ...over,
      },
    },
  );
  if (!data) throw new Error(JSON.stringify(errors));
  return data.issuePart;
}

import { globalId } from '@fairlead/api/ids';
import type { TestApi } from '../../support/api.ts';
import { makeShop, type TestShop } from '../../support/shop.ts';

/** The day on which the tests of what falls due look. */
export const NOW = new Date('2026-03-14T09:00:00Z');

export type Said = { id?: string; code?: string; message?: string };
export const aircraft = (shop: TestShop) => globalId('Aircraft', shop.aircraftId);

/** An aircraft at 1,300.0 h that flew 10 h, 30 h and 20 h in the months before. */
export async function flown(api: TestApi): Promise<TestShop> {
  const shop = await makeShop(api);
  await shop.inside((tx) =>
    tx.meterReading.createMany({
      data: [
        ['2025-12-14', 124_000],
        ['2026-01-13', 125_000],
        ['2026-02-12', 128_000],
        ['2026-03-14', 130_000],
      ].map(([day, tis]) => ({
        aircraftId: shop.aircraftId,
        meter: 'tachometer' as const,
        readingHundredths: Number(tis),
        tisHundredths: Number(tis),
        readAt: new Date(`${day}T08:00:00Z`),
      })),
    }),
  );
  return shop;
}
export async function add(
  shop: TestShop,
  over: Record<string, unknown> = {},
  role: 'inspector' | 'mechanic' = 'inspector',
) {
  const { data } = await shop.as<{ addDueItem: Said }>(
    role,
    'mutation($input: AddDueItemInput!) { addDueItem(input: $input) { ... on DueItem { id } ... on Refusal { code message } } }',
    {
      input: {
        aircraftId: aircraft(shop),
        ...{
          kind: 'inspection',
          title: '100-hour',
          source: '14 CFR 91.409(b)',
          rule: 'hundred_hour',
        },
        ...over,
      },
    },
  );
  return data?.addDueItem ?? {};
}
export async function record(shop: TestShop, itemId: string, over: Record<string, unknown> = {}) {
  const { data } = await shop.as<{ recordDueEvent: Said }>(
    'inspector',
    'mutation($input: DueEventInput!) { recordDueEvent(input: $input) { ... on DueItem { id } ... on Refusal { code message } } }',
    {
      input: {
        itemId,
        kind: 'complied',
        doneOn: '2026-01-20',
        method: 'Done by the list',
        ...over,
      },
    },
  );
  return data?.recordDueEvent ?? {};
}
export interface Line {
  itemId: string;
  title: string;
  state: string | null;
  because: string;
  dueOn: string | null;
  dueAtHundredths: number | null;
  remainingHundredths: number | null;
  projectedOn: string | null;
  projectedFrom: string | null;
  projectedTo: string | null;
  lastMethod: string | null;
}
export async function dueOf(shop: TestShop): Promise<Line[]> {
  const { data, errors } = await shop.as<{ node: { due: { lines: Line[] } } }>(
    'front_desk',
    `query($id: ID!) { node(id: $id) { ... on Aircraft { due { lines { itemId title state because dueOn dueAtHundredths
      remainingHundredths projectedOn projectedFrom projectedTo lastMethod } } } } }`,
    { id: aircraft(shop) },
  );
  if (!data) throw new Error(JSON.stringify(errors));
  return data.node.due.lines;
}

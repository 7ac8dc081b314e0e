import type { TestApi } from '../../support/api.ts';
import { makeShop, type TestShop } from '../../support/shop.ts';
import { aircraft, type Said } from './flown.ts';

type Counts = Partial<Record<'cycles' | 'landings' | 'starts', number>>;

/** An aircraft at 1,300.0 h with 5,000 landings and 2,400 starts, that landed 90, 30 and 60 times in the months before. */
export async function counted(api: TestApi): Promise<TestShop> {
  const shop = await makeShop(api);
  await shop.inside((tx) =>
    tx.meterReading.createMany({
      data: (
        [
          ['2025-12-14', 124_000, 4820],
          ['2026-01-13', 126_000, 4910],
          ['2026-02-12', 128_000, 4940],
          ['2026-03-14', 130_000, 5000],
        ] as const
      ).map(([day, tis, landings]) => ({
        ...{ aircraftId: shop.aircraftId, meter: 'tachometer' as const, landings },
        ...{ readingHundredths: tis, tisHundredths: tis, starts: 2400 },
        readAt: new Date(`${day}T08:00:00Z`),
      })),
    }),
  );
  return shop;
}

export const readCounted = async (
  shop: TestShop,
  counts: Counts,
  over: Record<string, unknown> = {},
): Promise<Said> => {
  const { data, errors } = await shop.as<{ recordReading: Said }>(
    'mechanic',
    'mutation($input: RecordReadingInput!) { recordReading(input: $input) { ... on Aircraft { id } ... on Refusal { code message } } }',
    {
      input: {
        ...{ aircraftId: aircraft(shop), meter: 'tachometer', readingHundredths: 130_000, counts },
        ...over,
      },
    },
  );
  return data?.recordReading ?? { message: JSON.stringify(errors) };
};

export interface CountedLine {
  title: string;
  state: string | null;
  because: string;
  counts: { counter: string; dueAt: number; remaining: number; lastAt: number | null }[];
  projectedOn: string | null;
  projectedFrom: string | null;
  projectedTo: string | null;
}
export async function countedDue(
  shop: TestShop,
  id = aircraft(shop),
): Promise<{ counts: Counts; lines: CountedLine[] }> {
  const { data, errors } = await shop.as<{
    node: { due: { counts: Counts; lines: CountedLine[] } };
  }>(
    'front_desk',
    `query($id: ID!) { node(id: $id) { ... on Aircraft { due { counts { cycles landings starts } lines {
      title state because counts { counter dueAt remaining lastAt } projectedOn projectedFrom projectedTo } } } } }`,
    { id },
  );
  if (!data) throw new Error(JSON.stringify(errors));
  return data.node.due;
}

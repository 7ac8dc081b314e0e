import { allow, type Context } from '../context.ts';
import { Refused } from '../errors.ts';
import { type FromDay, refuseDay } from '../from-a-day-on.ts';
import { givenQuantity, sayDay } from '../given.ts';
import { holdFor } from '../hold.ts';

export interface AddMarkUpInput extends FromDay {
  bands: readonly { costFrom: string; percent: string }[];
}

const MOST_BANDS = 30;
const newestFirst = [{ validFrom: 'desc' as const }, { id: 'desc' as const }];
const bad = (message: string) => new Refused('BAD_INPUT', message, 'bands');

/** How the cost of parts without a price of their own is marked up, from a day on. The list before it stays as it was. */
export async function addMarkUp(context: Context, input: AddMarkUpInput): Promise<string> {
  const { personId } = await allow(context, 'manager');
  const bands = input.bands.map(({ costFrom, percent }) => ({
    costFrom: givenQuantity(costFrom, 'bands', { most: 10_000_000, decimals: 4, zero: true }),
    percent: givenQuantity(percent, 'bands', { most: 1000, decimals: 4, zero: true }),
  }));
  const begins = bands.map(({ costFrom }) => Number(costFrom));
  if (bands.length === 0 || bands.length > MOST_BANDS)
    throw bad(`${bands.length} bands were given: needed are 1 to ${MOST_BANDS}.`);
  if (!begins.includes(0))
    throw bad(
      `The lowest band begins at a cost of ${Math.min(...begins)}: needed is one that begins at 0, so that every cost is in a band.`,
    );
  const twice = begins.find((cost, index) => begins.indexOf(cost) !== index);
  if (twice !== undefined) throw bad(`Two bands begin at a cost of ${twice}: name each once.`);
  return context.write(async (tx) => {
    await holdFor(tx, 'rates', 'mark-up');
    const known = await tx.markUpList.findMany({
      orderBy: newestFirst,
      select: { id: true, validFrom: true, by: { select: { name: true } } },
    });
    await refuseDay(tx, context.now(), input, known, {
      given: 'Mark-up bands were',
      already: ({ validFrom, by }) =>
        `From ${sayDay(validFrom)} there is a list of mark-up bands already, by ${by.name}.`,
    });
    const { id: listId } = await tx.markUpList.create({
      data: { validFrom: input.validFrom, at: context.now(), byId: personId },
      select: { id: true },
    });
    await tx.markUpBand.createMany({ data: bands.map((band) => ({ ...band, listId })) });
    return listId;
  });
}

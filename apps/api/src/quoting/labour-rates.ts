import type { Tx } from '@fairlead/database';

/** The kind of rate that holds for all work without a kind of its own. */
export const GENERAL = 'mechanic';

/** The price of an hour, and from when it holds. */
export interface LabourRateOnDay {
  rate: string;
  from: Date;
}

/** Of each kind the labour rate that holds on a day. Of two from one day the later one counts: it put the first right. */
export async function labourRatesOn(
  read: Tx,
  day: Date,
): Promise<ReadonlyMap<string, LabourRateOnDay>> {
  const rates = await read.labourRate.findMany({
    where: { validFrom: { lte: day } },
    orderBy: [{ validFrom: 'desc' }, { id: 'desc' }],
    distinct: ['kind'],
    select: { kind: true, rate: true, validFrom: true },
  });
  return new Map(
    rates.map(({ kind, rate, validFrom }) => [kind, { rate: rate.toFixed(), from: validFrom }]),
  );
}

import { allow, type Context } from '../context.ts';
import { Refused } from '../errors.ts';
import { type FromDay, refuseDay } from '../from-a-day-on.ts';
import { givenQuantity, sayDay } from '../given.ts';
import { holdFor } from '../hold.ts';

export interface AddSuppliesRuleInput extends FromDay {
  percent: string;
  /** Net, minor units; null: no cap. */
  cap: bigint | null;
}

const newestFirst = [{ validFrom: 'desc' as const }, { id: 'desc' as const }];
const MOST_MINOR = 1_000_000_000_00n;

/** Shop supplies as a share of the likely labour, up to a cap, from a day on. The rule before it stays as it was. */
export async function addSuppliesRule(
  context: Context,
  input: AddSuppliesRuleInput,
): Promise<string> {
  const { personId } = await allow(context, 'manager');
  const percent = givenQuantity(input.percent, 'percent', { most: 100, decimals: 4 });
  const { cap, validFrom } = input;
  if (cap !== null && (cap <= 0n || cap > MOST_MINOR))
    throw new Refused(
      'BAD_INPUT',
      `cap is ${cap} minor units: needed is more than 0 to ${MOST_MINOR}, or none.`,
      'cap',
    );
  return context.write(async (tx) => {
    await holdFor(tx, 'rates', 'supplies');
    const known = await tx.suppliesRule.findMany({
      orderBy: newestFirst,
      select: { id: true, validFrom: true, percent: true, by: { select: { name: true } } },
    });
    await refuseDay(tx, context.now(), input, known, {
      given: 'Shop supplies were',
      already: (same) =>
        `From ${sayDay(same.validFrom)} there is a rule for shop supplies already: ${same.percent.toFixed()} %, by ${same.by.name}.`,
    });
    const { id } = await tx.suppliesRule.create({
      data: { percent, capMinor: cap, validFrom, at: context.now(), byId: personId },
      select: { id: true },
    });
    return id;
  });
}

import { allow, type Context } from '../context.ts';
import { Refused } from '../errors.ts';
import { givenQuantity } from '../given.ts';
import { holdFor } from '../hold.ts';
import { refuseEarlier } from './refuse-earlier.ts';

export interface AddSuppliesRuleInput {
  percent: string;
  /** Net, minor units; null: no cap. */
  cap: bigint | null;
  validFrom: Date;
}

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
    const first = (await tx.suppliesRule.findFirst({ select: { id: true } })) === null;
    await refuseEarlier(tx, context.now(), { validFrom, first, what: 'Shop supplies' });
    const { id } = await tx.suppliesRule.create({
      data: { percent, capMinor: cap, validFrom, at: context.now(), byId: personId },
      select: { id: true },
    });
    return id;
  });
}

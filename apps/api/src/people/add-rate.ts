import type { TaxCategory } from '@fairlead/database';
import { type TaxCategory as TaxCode, taxCategories } from '@fairlead/money';
import { allow, type Context } from '../context.ts';
import { Refused } from '../errors.ts';
import { type FromDay, refuseDay } from '../from-a-day-on.ts';
import { givenQuantity, sayDay } from '../given.ts';
import { holdFor } from '../hold.ts';
import { rateKind } from './work-kinds.ts';

interface Row {
  id: string;
  validFrom: Date;
  rate: { toFixed(): string };
}

const newestFirst = [{ validFrom: 'desc' as const }, { id: 'desc' as const }];

/** A new price of an hour, from a day on. What was quoted, agreed or billed keeps its own. */
export async function addLabourRate(
  context: Context,
  input: FromDay & { kind: string; rate: string },
): Promise<string> {
  const { shopId } = await allow(context, 'manager');
  const rate = givenQuantity(input.rate, 'rate', { most: 99_999, decimals: 4, zero: true });
  return context.write(async (tx) => {
    await holdFor(tx, 'rates', 'labour');
    const kind = await rateKind(tx, input.kind);
    const known = await tx.labourRate.findMany({ where: { kind }, orderBy: newestFirst });
    await refuseDay(tx, context.now(), input, known, wordsFor(`an hour of ${kind}`));
    const { id } = await tx.labourRate.create({
      data: { shopId, kind, rate, validFrom: input.validFrom },
      select: { id: true },
    });
    return id;
  });
}

/** A new rate of tax, from a day on. The program never claims to know a tax. */
export async function addTaxRate(
  context: Context,
  input: FromDay & { category: TaxCategory; code: string; rate: string },
): Promise<string> {
  const { shopId } = await allow(context, 'manager');
  const { category } = input;
  const code = taxCategories.find((each) => each === input.code.trim().toUpperCase());
  const rate = givenQuantity(input.rate, 'rate', { most: 100, decimals: 4, zero: true });
  const rated: readonly (TaxCode | undefined)[] = ['S', 'L', 'M'];
  if (!code || (Number(rate) !== 0 && !rated.includes(code)))
    throw new Refused(
      'BAD_INPUT',
      `The tax on ${category} was given as ${rate} % of category "${input.code.slice(0, 20)}": needed is a category of EN 16931 (${taxCategories.join(', ')}), and 0 % unless it is S, L or M.`,
      'code',
    );
  return context.write(async (tx) => {
    await holdFor(tx, 'rates', 'tax');
    const known = await tx.taxRate.findMany({ where: { category }, orderBy: newestFirst });
    await refuseDay(tx, context.now(), input, known, wordsFor(`tax on ${category}`));
    const { id } = await tx.taxRate.create({
      data: { shopId, category, code, rate, validFrom: input.validFrom },
      select: { id: true },
    });
    return id;
  });
}

const wordsFor = (what: string) => ({
  given: `A rate for ${what} was`,
  already: ({ validFrom, rate }: Row) =>
    `For ${what} from ${sayDay(validFrom)} there is a rate already: ${rate.toFixed()}.`,
});

import type { TaxCategory } from '@fairlead/database';
import { allow, type Context } from '../context.ts';
import { notFound, Refused } from '../errors.ts';
import { givenQuantity, givenText } from '../given.ts';
import { literally } from '../literally.ts';
import { shopToday } from '../today.ts';
import { givenCoreCharge } from './given-core-charge.ts';
import { appendPrice, givenUnitPrice, refuseUnpriced } from './part-prices.ts';

export interface PartTerms {
  title: string;
  /** Null: none of its own, so that its cost is marked up by the shop's bands. */
  unitPrice: string | null;
  category: TaxCategory;
  /** For one unit, minor units; null: none is asked for. */
  coreCharge: bigint | null;
  /** Null: nobody watches it. */
  reorderPoint: string | null;
}

function given(input: PartTerms) {
  return {
    title: givenText(input.title, 'title', { least: 1, most: 120 }),
    category: input.category,
    coreChargeMinor: givenCoreCharge(input.coreCharge),
    reorderPoint:
      input.reorderPoint === null
        ? null
        : givenQuantity(input.reorderPoint, 'reorderPoint', {
            most: 100_000,
            decimals: 3,
            zero: true,
          }),
  };
}

/** A part that the shop did not know yet. */
export async function addPart(
  context: Context,
  input: PartTerms & { number: string; unit: string },
): Promise<string> {
  const { shopId } = await allow(context, 'front_desk', 'inspector', 'manager');
  const terms = { ...given(input), unitPrice: givenUnitPrice(input.unitPrice) };
  const today = await shopToday(context);
  const number = givenText(input.number, 'number', { least: 1, most: 60 });
  const unit = givenText(input.unit, 'unit', { least: 1, most: 20 });
  return context.write(async (tx) => {
    const known = await tx.part.findFirst({
      where: { number: { equals: literally(number), mode: 'insensitive' } },
      select: { number: true, title: true },
    });
    if (known)
      throw new Refused(
        'CONFLICT',
        `Part ${known.number} is known already, as “${known.title}”: a number is given once.`,
        'number',
      );
    if (terms.unitPrice === null) await refuseUnpriced(tx, terms.title, today);
    const { id } = await tx.part.create({
      data: { shopId, number, unit, ...terms },
      select: { id: true },
    });
    return id;
  });
}

/**
 * Changes what a part is sold and ordered by. Its number and unit stay: a new number is a new part that supersedes it. A
 * price is never changed: the new one counts from its day on. Lots that are here keep the core charge that they came with.
 */
export async function changePart(
  context: Context,
  input: PartTerms & { partId: string; priceFrom: Date | null },
): Promise<string> {
  const { personId } = await allow(context, 'front_desk', 'inspector', 'manager');
  const terms = given(input);
  const unitPrice = givenUnitPrice(input.unitPrice);
  const today = await shopToday(context);
  const now = context.now();
  return context.write(async (tx) => {
    const part = await tx.part.findUnique({ where: { id: input.partId }, select: { id: true } });
    if (!part) throw notFound('part');
    await tx.part.update({ where: { id: part.id }, data: terms, select: { id: true } });
    await appendPrice(tx, {
      ...{ partId: part.id, unitPrice, from: input.priceFrom ?? today, today, now, personId },
    });
    return part.id;
  });
}

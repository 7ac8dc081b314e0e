import type { BillingRounding, ShopStanding } from '@fairlead/database';
import { allow, type Context } from '../context.ts';
import { Refused } from '../errors.ts';
import { givenQuantity, givenText } from '../given.ts';
import { givenMailAddress } from '../mail-address.ts';
import { type GivenAddress, givenAddress } from '../postal-address.ts';
import { shopForChange } from './for-change.ts';
import { givenRegistrations, type Registrations } from './given-registrations.ts';
import { givenClearance, givenCurrency, givenTimeZone } from './given-shop.ts';

export interface ChangeShopInput extends Registrations {
  expectedVersion: number;
  name: string;
  place: string;
  /** Left out: stays as it is; null: none. */
  postalAddress?: GivenAddress | null | undefined;
  /** Left out: stays as it is; null or nothing: none. */
  email?: string | null | undefined;
  timeZone: string;
  currency: string;
  standing: ShopStanding;
  certificateNumber: string | null;
  clearanceMm: number;
  billingStep: string;
  billingRounding: BillingRounding;
  /** The fewest hours billed of an item once any were clocked. Left out: stays as it is; null: no minimum. */
  billingMinimum?: string | null | undefined;
  /** Past the owner's yes without asking: net, minor units, and per cent; the smaller holds. Left out: stays; null: none. */
  overrunMinor?: bigint | null | undefined;
  overrunPercent?: string | null | undefined;
  timeInServiceBasis: string;
}

/** Sets what the shop is and how it reckons. From now on: what was sent, signed or billed keeps what it was made with. */
export async function changeShop(context: Context, input: ChangeShopInput): Promise<string> {
  await allow(context, 'manager');
  const given = {
    name: givenText(input.name, 'name', { least: 1, most: 120 }),
    place: givenText(input.place, 'place', { least: 1, most: 300 }),
    ...(input.postalAddress !== undefined && givenAddress(input.postalAddress)),
    ...givenRegistrations(input),
    ...(input.email !== undefined && { email: givenMailAddress(input.email, 'email') }),
    timeZone: givenTimeZone(input.timeZone),
    currency: givenCurrency(input.currency),
    standing: input.standing,
    certificateNumber: givenText(input.certificateNumber, 'certificateNumber', { most: 60 }),
    clearanceMm: givenClearance(input.clearanceMm),
    billingStep: givenQuantity(input.billingStep, 'billingStep', { most: 8, decimals: 2 }),
    billingRounding: input.billingRounding,
    ...(input.billingMinimum !== undefined && {
      billingMinimum:
        input.billingMinimum === null
          ? null
          : givenQuantity(input.billingMinimum, 'billingMinimum', { most: 8, decimals: 2 }),
    }),
    ...givenOverrun(input),
    timeInServiceBasis: givenText(input.timeInServiceBasis, 'timeInServiceBasis', {
      least: 3,
      most: 300,
    }),
  };
  if (given.standing === 'repair_station' && given.certificateNumber === '')
    throw new Refused(
      'BAD_INPUT',
      'A repair station was given without its certificate number: needed is the number of its certificate (14 CFR part 145), which goes beside every signature.',
      'certificateNumber',
    );
  return context.write(async (tx) => {
    // load
    const shop = await shopForChange(tx, input.expectedVersion);
    // decide
    if (
      given.currency !== shop.currency &&
      (await tx.quoteRevision.findFirst({ select: { id: true } }))
    )
      throw new Refused(
        'AGAINST_RULE',
        `The currency stays ${shop.currency}: amounts were quoted in it, and ${given.currency} would make other amounts of them.`,
        'currency',
      );
    // save
    await tx.shop.update({
      where: { id: shop.id },
      data: {
        ...given,
        certificateNumber: given.certificateNumber === '' ? null : given.certificateNumber,
      },
      select: { id: true },
    });
    return shop.id;
  });
}

function givenOverrun({ overrunMinor, overrunPercent }: ChangeShopInput) {
  if (overrunMinor !== undefined && overrunMinor !== null && overrunMinor <= 0n)
    throw new Refused(
      'BAD_INPUT',
      `overrunMinor is ${overrunMinor}: needed is more than 0, or nothing where no sum is allowed.`,
      'overrunMinor',
    );
  return {
    ...(overrunMinor !== undefined && { overrunMinor }),
    ...(overrunPercent !== undefined && {
      overrunPercent:
        overrunPercent === null
          ? null
          : givenQuantity(overrunPercent, 'overrunPercent', { most: 100, decimals: 2 }),
    }),
  };
}

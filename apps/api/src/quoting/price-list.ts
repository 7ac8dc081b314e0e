import type { TaxCategory, Tx } from '@fairlead/database';
import {
  type Currency,
  isCurrency,
  type TaxCategory as TaxCode,
  taxCategories,
} from '@fairlead/money';
import { Refused } from '../errors.ts';

export interface Tax {
  readonly code: TaxCode;
  /** Per cent. */
  readonly rate: string;
}

/** What an hour costs and what is taxed how, on one day. */
export interface PriceList {
  readonly day: Date;
  readonly currency: Currency;
  /** Price of a mechanic's hour. */
  readonly labourRate: string;
  /** @throws a refusal that names the day and the category, where the shop's table has no tax for it */
  taxOf(category: TaxCategory): Tax;
}

const iso = (day: Date) => day.toISOString().slice(0, 10);
// Of two for one day the later one counts: it put the first right.
const newestFirst = [{ validFrom: 'desc' }, { id: 'desc' }] as const;
// Only these carry a rate other than 0 (EN 16931-1, rules BR-S-05, BR-Z-05, BR-E-05 and their like).
const rated: readonly string[] = ['S', 'L', 'M'];

/** The shop's own rates and taxes as they are on a day. The program knows none of its own. */
export async function priceList(read: Tx, given: string, day: Date): Promise<PriceList> {
  const until = { validFrom: { lte: day } };
  const rate = await read.labourRate.findFirst({
    where: { kind: 'mechanic', ...until },
    orderBy: [...newestFirst],
  });
  const taxes = await read.taxRate.findMany({
    where: until,
    orderBy: [...newestFirst],
    distinct: ['category'],
  });
  if (!isCurrency(given))
    throw new Refused(
      'AGAINST_RULE',
      `The shop's currency is "${given}": needed is one of ISO 4217 that amounts can be kept in, such as USD.`,
    );
  if (!rate)
    throw new Refused(
      'AGAINST_RULE',
      `There is no labour rate for a mechanic's hour on ${iso(day)}: add one that is valid from that day or earlier.`,
    );
  return {
    day,
    currency: given,
    labourRate: rate.rate.toFixed(),
    taxOf(category) {
      const tax = taxes.find((row) => row.category === category);
      if (!tax)
        throw new Refused(
          'AGAINST_RULE',
          `The shop's tax table has no tax on ${category} for ${iso(day)}: add one that is valid from that day or earlier.`,
        );
      const code = taxCategories.find((known) => known === tax.code);
      if (!code || (!tax.rate.isZero() && !rated.includes(code)) || tax.rate.isNegative())
        throw new Refused(
          'AGAINST_RULE',
          `The shop's tax on ${category} for ${iso(day)} is ${tax.rate.toFixed()} % of category "${tax.code}": needed is a category of EN 16931, and 0 % unless it is S, L or M.`,
        );
      return { code, rate: tax.rate.toFixed() };
    },
  };
}

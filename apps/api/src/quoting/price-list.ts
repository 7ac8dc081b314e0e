import type { TaxCategory, Tx } from '@fairlead/database';
import {
  type Currency,
  isCurrency,
  type TaxCategory as TaxCode,
  taxCategories,
} from '@fairlead/money';
import { Refused } from '../errors.ts';
import { sayDay } from '../given.ts';
import { type MarkUp, type PartPriced, type PartPriceFacts, priceOfPart } from '../part-price.ts';
import { type Exemption, exemptionOn, exemptionsOf, type Taxed } from './exemptions.ts';
import { GENERAL, type LabourRateOnDay, labourRatesOn } from './labour-rates.ts';
import { markUpOn } from './mark-up-on.ts';

export interface Tax {
  readonly code: TaxCode;
  /** Per cent. */
  readonly rate: string;
  /** By which exemption it is not charged; null: by none. */
  readonly exemptionId: string | null;
  /** The exemption's reason; else nothing. */
  readonly reason: string;
}

/** What an hour costs, what is taxed how and what parts cost, on one day. */
export interface PriceList {
  readonly day: Date;
  readonly currency: Currency;
  /** Price of a mechanic's hour, where its kind of work has none of its own. */
  readonly labourRate: string;
  /** Price of an hour of a kind of work, with the kind that has it: nothing where the general rate stands in. */
  rateOf(kind: string | null): LabourRateOnDay & { kind: string };
  /** @throws a refusal that names the part and the day, where neither a price nor a band of cost says one */
  priceOf(part: PartPriceFacts, unitCost: string | null): PartPriced;
  /** @throws a refusal that names the day and the category, where the shop's table has no tax for it */
  taxOf(category: TaxCategory): Tax;
  /** By which exemption a category is not taxed; null: by none. */
  exemptOf(category: TaxCategory): Tax | null;
  /** The same list for somebody with these exemptions. */
  exempting(exemptions: readonly Exemption[]): PriceList;
  /** Shop supplies by the shop's rule: a share of the labour, up to a cap. Null: it has no rule. */
  readonly supplies: SuppliesOnDay | null;
}

export interface SuppliesOnDay {
  percent: string;
  cap: bigint | null;
  from: Date;
}

// Of two for one day the later one counts: it put the first right.
const newestFirst = [{ validFrom: 'desc' }, { id: 'desc' }] as const;
// Only these carry a rate other than 0 (EN 16931-1, rules BR-S-05, BR-Z-05, BR-E-05 and their like).
const rated: readonly string[] = ['S', 'L', 'M'];

/**
 * The shop's own rates, prices and taxes as they are on a day. The program knows none of its own.
 *
 * @param taxed whose exemptions from tax count; null: nobody's
 */
export async function priceList(
  read: Tx,
  given: string,
  day: Date,
  taxed: Taxed | null = null,
): Promise<PriceList> {
  const until = { validFrom: { lte: day } };
  const rates = await labourRatesOn(read, day);
  const taxes = await read.taxRate.findMany({
    where: until,
    orderBy: [...newestFirst],
    distinct: ['category'],
  });
  const markUp = await markUpOn(read, day);
  const rule = await read.suppliesRule.findFirst({ where: until, orderBy: [...newestFirst] });
  const exemptions = taxed ? await exemptionsOf(read, taxed) : [];
  if (!isCurrency(given))
    throw new Refused(
      'AGAINST_RULE',
      `The shop's currency is "${given}": needed is one of ISO 4217 that amounts can be kept in, such as USD.`,
    );
  const general = rates.get(GENERAL);
  if (!general)
    throw new Refused(
      'AGAINST_RULE',
      `There is no labour rate for a mechanic's hour on ${sayDay(day)}: add one that is valid from that day or earlier.`,
    );
  const ordinary = (category: TaxCategory): Tax => {
    const tax = taxes.find((row) => row.category === category);
    if (!tax)
      throw new Refused(
        'AGAINST_RULE',
        `The shop's tax table has no tax on ${category} for ${sayDay(day)}: add one that is valid from that day or earlier.`,
      );
    const code = taxCategories.find((known) => known === tax.code);
    if (!code || (!tax.rate.isZero() && !rated.includes(code)) || tax.rate.isNegative())
      throw new Refused(
        'AGAINST_RULE',
        `The shop's tax on ${category} for ${sayDay(day)} is ${tax.rate.toFixed()} % of category "${tax.code}": needed is a category of EN 16931, and 0 % unless it is S, L or M.`,
      );
    return { code, rate: tax.rate.toFixed(), exemptionId: null, reason: '' };
  };
  const listFor = (theirs: readonly Exemption[]): PriceList => ({
    day,
    currency: given,
    labourRate: general.rate,
    supplies: rule && {
      percent: rule.percent.toFixed(),
      cap: rule.capMinor,
      from: rule.validFrom,
    },
    rateOf(kind) {
      const own = kind === null ? undefined : rates.get(kind);
      return own ? { ...own, kind: kind ?? '' } : { ...general, kind: '' };
    },
    priceOf: (part, unitCost) =>
      priceOfPart(part, { day, unitCost, markUp }) ?? refusePart(part, { day, unitCost, markUp }),
    exemptOf: (category) => exemptBy(theirs, category, day),
    taxOf: (category) => exemptBy(theirs, category, day) ?? ordinary(category),
    exempting: listFor,
  });
  return listFor(exemptions);
}

function exemptBy(exemptions: readonly Exemption[], category: TaxCategory, day: Date): Tax | null {
  const exemption = exemptionOn(exemptions, category, day);
  return exemption
    ? { code: 'E', rate: '0', exemptionId: exemption.id, reason: exemption.reason }
    : null;
}

function refusePart(
  { title }: PartPriceFacts,
  { day, unitCost, markUp }: { day: Date; unitCost: string | null; markUp: MarkUp | null },
): never {
  throw new Refused(
    'AGAINST_RULE',
    `${title} has no price of its own on ${sayDay(day)}, and ${
      markUp === null
        ? 'the shop has no mark-up bands from that day or earlier'
        : unitCost === null
          ? 'none of it ever came, so that there is no cost to mark up'
          : 'its cost is in no band'
    }: give it a price${markUp === null ? ', or add the bands' : ''}.`,
  );
}

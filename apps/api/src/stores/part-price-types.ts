import { builder } from '../builder.ts';
import type { Context } from '../context.ts';
import { sayDay } from '../given.ts';
import { type MarkUp, type PartPriceFacts, partPriceFacts, priceOfPart } from '../part-price.ts';
import { markUpOn } from '../quoting/queries.ts';
import { shopToday } from '../today.ts';

const known = new WeakMap<Context, Promise<MarkUp | null>>();

/** The bands of the day; asked once a request, however many parts it shows. */
function markUpToday(context: Context): Promise<MarkUp | null> {
  const bands = known.get(context) ?? shopToday(context).then((day) => markUpOn(context.read, day));
  known.set(context, bands);
  return bands;
}

builder.prismaNode('PartPrice', {
  id: { field: 'id' },
  description: 'What a part sells for from a day on. Never changed.',
  fields: (t) => ({
    unitPrice: t.expose('unitPrice', {
      type: 'Decimal',
      nullable: true,
      description: 'Of one unit; null: none of its own from then on, its cost is marked up.',
    }),
    validFrom: t.expose('validFrom', { type: 'Date', description: 'From when it counts.' }),
    at: t.expose('at', { type: 'DateTime', description: 'When it was said.' }),
    by: t.relation('by', { description: 'Who said it.' }),
  }),
});

const priceFacts = {
  ...partPriceFacts,
  lots: {
    orderBy: [{ receivedOn: 'desc' as const }, { id: 'desc' as const }],
    take: 1,
    select: { unitCost: true },
  },
};
interface Facts extends PartPriceFacts {
  lots: readonly { unitCost: { toFixed(): string } }[];
}

const pricedToday = async (part: Facts, context: Context) =>
  priceOfPart(part, {
    day: await shopToday(context),
    unitCost: part.lots[0]?.unitCost.toFixed() ?? null,
    markUp: await markUpToday(context),
  });

builder.prismaObjectFields('Part', (t) => ({
  unitPrice: t.field({
    type: 'Decimal',
    nullable: true,
    description:
      'Selling price of one unit today: its own, or the cost of the last delivery marked up by the bands; null: neither says one.',
    select: priceFacts,
    resolve: async (part, _, context) => (await pricedToday(part, context))?.unitPrice ?? null,
  }),
  ownPrice: t.field({
    type: 'Decimal',
    nullable: true,
    description: 'Its own price today; null: it has none, and is marked up by the bands.',
    select: priceFacts,
    resolve: async (part, _, context) => {
      const price = await pricedToday(part, context);
      return price && price.markedUp === null ? price.unitPrice : null;
    },
  }),
  pricedBy: t.string({
    description: 'By what it is priced today, in words.',
    select: priceFacts,
    resolve: async (part, _, context) => {
      const price = await pricedToday(part, context);
      if (price === null) return 'It has no price of its own, and no cost and band that say one.';
      if (price.markedUp !== null)
        return `Marked up from what the last delivery cost, by the bands that hold from ${price.from ? sayDay(price.from) : ''}.`;
      return price.from ? `Its own price, from ${sayDay(price.from)}.` : 'Its first price.';
    },
  }),
  prices: t.relation('prices', {
    description:
      'Its prices after the first, the newest first; some may hold only from a later day.',
    query: { orderBy: [{ validFrom: 'desc' }, { id: 'desc' }] },
  }),
}));

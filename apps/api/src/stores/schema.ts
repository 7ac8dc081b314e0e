import { builder } from '../builder.ts';
import { keyOf } from '../ids.ts';
import './core-schema.ts';
import './document-types.ts';
import './outside/outside-schema.ts';
import './item-parts.ts';
import './find-schema.ts';
import './lot-types.ts';
import './reservation-schema.ts';
import { receiveLot } from './receive-lot.ts';
import './move-mutations.ts';
import './part-mutations.ts';
import './part-price-types.ts';
import './part-types.ts';
import './purchase-mutations.ts';
import './purchase-types.ts';
import './bought-for-work-types.ts';
import './recall-types.ts';
import './shelf-mutations.ts';

const ReceiveLotInput = builder.inputType('ReceiveLotInput', {
  description: 'A delivery of one part, of one batch.',
  fields: (t) => ({
    partId: t.id({ required: true, description: 'The part.' }),
    supplier: t.string({
      required: true,
      description: 'Who delivered it, at most 120 characters.',
    }),
    batch: t.string({
      required: true,
      description: 'Batch or serial number, at most 80 characters.',
    }),
    tag: t.string({ description: 'Number of the release certificate that came with it.' }),
    quantity: t.field({
      type: 'Decimal',
      required: true,
      description: 'Units: more than 0, at most 100,000, with at most 3 decimals.',
    }),
    unitCost: t.field({
      type: 'Decimal',
      required: true,
      description: 'What one unit cost the shop, 0 or more, with at most 4 decimals.',
    }),
    receivedOn: t.field({ type: 'Date', description: 'When it came; left out: today.' }),
    shelfLifeUntil: t.field({
      type: 'Date',
      description: 'Last day on which it may be fitted, where it ages.',
    }),
    bin: t.string({ description: 'Where it is put.' }),
    purchaseLineId: t.id({
      description: 'The line of a purchase order that it was ordered by, where it was.',
    }),
    coreCharge: t.field({
      type: 'Minor',
      description:
        'Charged for one unit until the old one comes back; left out: what the part has; null: nothing.',
    }),
    clientEventId: t.string({
      description: 'A UUID that the page makes, so that a delivery sent twice is one.',
    }),
  }),
});

builder.queryFields((t) => ({
  lots: t.prismaConnection({
    type: 'Lot',
    cursor: 'id',
    args: {
      partId: t.arg.id({ description: 'Of this part only.' }),
      inStock: t.arg.boolean({
        defaultValue: false,
        description: 'True: only lots that hold something.',
      }),
    },
    description: 'What lies in stores, oldest delivery first.',
    resolve: (query, _, { partId, inStock }, { read }) =>
      read.lot.findMany({
        ...query,
        where: {
          ...(partId && { partId: keyOf('Part', partId, 'partId') }),
          ...(inStock && { onHand: { gt: 0 } }),
        },
        orderBy: [{ receivedOn: 'asc' }, { id: 'asc' }],
      }),
  }),
}));

builder.mutationFields((t) => ({
  receiveLot: t.prismaField({
    type: 'Lot',
    errors: {},
    description: 'Takes a delivery into stores.',
    args: { input: t.arg({ type: ReceiveLotInput, required: true, description: 'What came.' }) },
    resolve: async (query, _, { input }, context) => {
      const { tag, receivedOn, shelfLifeUntil, bin, clientEventId, purchaseLineId, ...given } =
        input;
      const id = await receiveLot(context, {
        ...given,
        partId: keyOf('Part', input.partId, 'partId'),
        purchaseLineId: purchaseLineId
          ? keyOf('PurchaseLine', purchaseLineId, 'purchaseLineId')
          : null,
        tag: tag ?? null,
        receivedOn: receivedOn ?? null,
        shelfLifeUntil: shelfLifeUntil ?? null,
        bin: bin ?? null,
        clientEventId: clientEventId ?? null,
      });
      return context.read.lot.findUniqueOrThrow({ ...query, where: { id } });
    },
  }),
}));

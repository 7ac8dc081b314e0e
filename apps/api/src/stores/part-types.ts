import { PartRelationKind, TaxCategory } from '@fairlead/database';
import { builder } from '../builder.ts';
import { givenQuantity } from '../given.ts';
import { shopToday } from '../today.ts';
import { onShelf, shelfFacts } from './part-shelf.ts';
import { onOrder, orderedFacts, orderedWords } from './purchase-state.ts';
import { shortageWords } from './shortage.ts';
import { type StandIn, standInsOf } from './stand-ins.ts';

export const PartRelationKindType = builder.enumType(PartRelationKind, {
  name: 'PartRelationKind',
  description: 'How a part stands in for another.',
  values: {
    superseded: { description: 'Its number supersedes the other’s.' },
    alternate: { description: 'It may be fitted instead.' },
    withdrawn: { description: 'It does not stand in any more.' },
  },
});

builder.prismaNode('PartRelation', {
  id: { field: 'id' },
  description: 'What somebody said of one part standing in for another. Never changed.',
  fields: (t) => ({
    part: t.relation('part', { description: 'The part that another stands in for.' }),
    instead: t.relation('instead', { description: 'The part that stands in.' }),
    kind: t.expose('kind', { type: PartRelationKindType, description: 'How.' }),
    source: t.exposeString('source', { description: 'By which data.' }),
    at: t.expose('at', { type: 'DateTime', description: 'When it was said.' }),
    by: t.relation('by', { description: 'Who said it.' }),
  }),
});

const StandInType = builder.objectRef<StandIn>('StandIn').implement({
  description: 'A part that may stand in for another.',
  fields: (t) => ({
    part: t.prismaField({
      type: 'Part',
      description: 'Which.',
      resolve: (query, { partId }, _, { read }) =>
        read.part.findUniqueOrThrow({ ...query, where: { id: partId } }),
    }),
    superseding: t.boolean({
      description: 'Whether its number supersedes the other’s; else it is an alternate.',
      resolve: ({ kind }) => kind === 'superseded',
    }),
    steps: t.int({
      description: 'Steps from the part that was asked for; 1 is the next.',
      resolve: ({ steps }) => steps,
    }),
  }),
});

/** Of each pair the newest word, where it still holds. */
const holding = <R extends { partId: string; insteadId: string; kind: PartRelationKind }>(
  newestFirst: readonly R[],
): R[] => {
  const seen = new Set<string>();
  return newestFirst.filter(({ partId, insteadId, kind }) => {
    const pair = `${partId} ${insteadId}`;
    const first = !seen.has(pair);
    seen.add(pair);
    return first && kind !== 'withdrawn';
  });
};
const newest = [{ at: 'desc' as const }, { id: 'desc' as const }];

builder.prismaObjectFields('Part', (t) => ({
  category: t.expose('category', { type: TaxCategory, description: 'What it is taxed as.' }),
  coreCharge: t.expose('coreChargeMinor', {
    type: 'Minor',
    nullable: true,
    description: 'Charged for one unit until the old one comes back; null: none is asked for.',
  }),
  reorderPoint: t.expose('reorderPoint', {
    type: 'Decimal',
    nullable: true,
    description: 'It is to be ordered when fewer are free and on order; null: nobody watches it.',
  }),
  onHand: t.field({
    type: 'Decimal',
    description: 'Units on the shelves, whatever their date and whoever they are kept for.',
    select: { lots: shelfFacts },
    resolve: async ({ lots }, _, context) => onShelf(lots, await shopToday(context)).onHand,
  }),
  free: t.field({
    type: 'Decimal',
    description: 'Units on the shelves that are free for anybody and within their shelf life.',
    select: { lots: shelfFacts },
    resolve: async ({ lots }, _, context) => onShelf(lots, await shopToday(context)).free,
  }),
  onOrder: t.field({
    type: 'Decimal',
    description: 'Units that were ordered of suppliers and have not come.',
    select: { purchases: orderedFacts },
    resolve: ({ purchases }) => onOrder(purchases),
  }),
  shortage: t.string({
    nullable: true,
    description:
      'Where fewer are free than wanted: that, and what stands in for it and where that lies. Null: enough are there.',
    args: {
      wanted: t.arg({
        type: 'Decimal',
        description: 'How many are wanted; left out: 1.',
      }),
    },
    select: { id: true, lots: shelfFacts, purchases: orderedFacts },
    resolve: async ({ id, lots, purchases }, { wanted }, context) => {
      const quantity = givenQuantity(wanted ?? '1', 'wanted', { most: 100_000, decimals: 3 });
      const today = await shopToday(context);
      const own = { ...onShelf(lots, today), ordered: orderedWords(purchases) };
      return shortageWords(context.read, id, own, { wanted: quantity, today });
    },
  }),
  standIns: t.field({
    type: [StandInType],
    description: 'What may stand in for it, the nearest first, however many steps away.',
    select: { id: true },
    resolve: ({ id }, _, { read }) => standInsOf(read, id),
  }),
  instead: t.prismaField({
    type: ['PartRelation'],
    description: 'What stands in for it directly, as it was said last.',
    select: { id: true },
    resolve: async (query, { id }, _, { read }) =>
      holding(
        await read.partRelation.findMany({ ...query, where: { partId: id }, orderBy: newest }),
      ),
  }),
  insteadOf: t.prismaField({
    type: ['PartRelation'],
    description: 'What it stands in for directly.',
    select: { id: true },
    resolve: async (query, { id }, _, { read }) =>
      holding(
        await read.partRelation.findMany({ ...query, where: { insteadId: id }, orderBy: newest }),
      ),
  }),
  lots: t.relatedConnection('lots', {
    cursor: 'id',
    description: 'Every lot of it, the newest first.',
    query: { orderBy: [{ receivedOn: 'desc' }, { id: 'desc' }] },
  }),
}));

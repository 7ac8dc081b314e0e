import { TaxCategory } from '@fairlead/database';
import { builder } from '../builder.ts';
import { keyOf } from '../ids.ts';
import { addPart, changePart } from './keep-part.ts';
import { PartRelationKindType } from './part-types.ts';
import { relateParts } from './relate-parts.ts';

const terms = {
  title: { required: true, description: 'What it is, 1 to 120 characters.' },
  unitPrice: {
    type: 'Decimal',
    description:
      'Selling price of one unit, 0 or more, with at most 4 decimals; null: none of its own, its cost is marked up by the bands.',
  },
  category: { type: TaxCategory, required: true, description: 'What it is taxed as.' },
  coreCharge: {
    type: 'Minor',
    description:
      'Charged for one unit until the old one comes back, minor units above 0; left out: none.',
  },
  reorderPoint: {
    type: 'Decimal',
    description: 'To be ordered when fewer are free and on order; left out: nobody watches it.',
  },
} as const;

const AddPartInput = builder.inputType('AddPartInput', {
  description: 'A part that the shop did not know yet.',
  fields: (t) => ({
    number: t.string({ required: true, description: 'Part number, 1 to 60 characters.' }),
    unit: t.string({ required: true, description: 'Unit in which it is sold, such as each.' }),
    title: t.string(terms.title),
    unitPrice: t.field(terms.unitPrice),
    category: t.field(terms.category),
    coreCharge: t.field(terms.coreCharge),
    reorderPoint: t.field(terms.reorderPoint),
  }),
});

const ChangePartInput = builder.inputType('ChangePartInput', {
  description: 'What a part is sold and ordered by from now on. Its number and unit stay.',
  fields: (t) => ({
    partId: t.id({ required: true, description: 'The part.' }),
    title: t.string(terms.title),
    unitPrice: t.field(terms.unitPrice),
    priceFrom: t.field({
      type: 'Date',
      description: 'From when that price counts: today or later; left out: today.',
    }),
    category: t.field(terms.category),
    coreCharge: t.field(terms.coreCharge),
    reorderPoint: t.field(terms.reorderPoint),
  }),
});

const RelatePartsInput = builder.inputType('RelatePartsInput', {
  description: 'What may stand in for a part, in one direction.',
  fields: (t) => ({
    partId: t.id({ required: true, description: 'The part.' }),
    insteadId: t.id({ required: true, description: 'What may stand in for it.' }),
    kind: t.field({ type: PartRelationKindType, required: true, description: 'How.' }),
    source: t.string({
      required: true,
      description: 'By which data: the maker’s list, bulletin or letter; 3 to 200 characters.',
    }),
    clientEventId: t.string({
      description: 'A UUID that the page makes, so that what is sent twice is said once.',
    }),
  }),
});

builder.mutationFields((t) => ({
  addPart: t.prismaField({
    type: 'Part',
    errors: {},
    description: 'Adds a part. A number is given once.',
    args: { input: t.arg({ type: AddPartInput, required: true, description: 'The part.' }) },
    resolve: async (query, _, { input }, context) => {
      const id = await addPart(context, {
        ...input,
        unitPrice: input.unitPrice ?? null,
        coreCharge: input.coreCharge ?? null,
        reorderPoint: input.reorderPoint ?? null,
      });
      return context.read.part.findUniqueOrThrow({ ...query, where: { id } });
    },
  }),
  changePart: t.prismaField({
    type: 'Part',
    errors: {},
    description: 'Changes price, tax, core charge and reorder point of a part.',
    args: { input: t.arg({ type: ChangePartInput, required: true, description: 'The terms.' }) },
    resolve: async (query, _, { input }, context) => {
      const id = await changePart(context, {
        ...input,
        partId: keyOf('Part', input.partId, 'partId'),
        unitPrice: input.unitPrice ?? null,
        priceFrom: input.priceFrom ?? null,
        coreCharge: input.coreCharge ?? null,
        reorderPoint: input.reorderPoint ?? null,
      });
      return context.read.part.findUniqueOrThrow({ ...query, where: { id } });
    },
  }),
  relateParts: t.prismaField({
    type: 'Part',
    errors: {},
    description:
      'Says what may stand in for a part, or that it may no longer. Never round in a circle.',
    args: { input: t.arg({ type: RelatePartsInput, required: true, description: 'Which.' }) },
    resolve: async (query, _, { input }, context) => {
      const id = await relateParts(context, {
        ...input,
        partId: keyOf('Part', input.partId, 'partId'),
        insteadId: keyOf('Part', input.insteadId, 'insteadId'),
        clientEventId: input.clientEventId ?? null,
      });
      return context.read.part.findUniqueOrThrow({ ...query, where: { id } });
    },
  }),
}));

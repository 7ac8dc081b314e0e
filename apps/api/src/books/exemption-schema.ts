import { TaxCategory } from '@fairlead/database';
import { builder } from '../builder.ts';
import { globalId, keyOf } from '../ids.ts';
import { endedWords, exemptionsOf } from '../quoting/queries.ts';
import { shopToday } from '../today.ts';
import { endExemption } from './end-exemption.ts';

builder.prismaNode('TaxExemption', {
  id: { field: 'id' },
  description: 'Somebody who pays, or an aircraft, that is not taxed on a category for a time.',
  fields: (t) => ({
    contact: t.relation('contact', { nullable: true, description: 'Who pays, if it is theirs.' }),
    aircraft: t.relation('aircraft', {
      nullable: true,
      description: 'The aircraft, if it is its.',
    }),
    category: t.expose('category', { type: TaxCategory, description: 'What is not taxed.' }),
    from: t.expose('validFrom', { type: 'Date', description: 'First day.' }),
    until: t.expose('validUntil', { type: 'Date', description: 'Last day.' }),
    reason: t.exposeString('reason', {
      description: 'In words, as it goes onto invoices (BT-120 of EN 16931).',
    }),
    url: t.string({
      description: 'Where its paper is fetched.',
      select: { id: true },
      resolve: ({ id }) => `/exemptions/${globalId('TaxExemption', id)}`,
    }),
    name: t.exposeString('name', { description: 'What the file of its paper was called.' }),
    holds: t.boolean({
      description: 'Whether it counts today.',
      select: { validFrom: true, validUntil: true, ends: { select: { id: true } } },
      resolve: async ({ validFrom, validUntil, ends }, _, context) => {
        const today = await shopToday(context);
        return ends.length === 0 && validFrom <= today && validUntil >= today;
      },
    }),
    endedBecause: t.string({
      nullable: true,
      description: 'Why it was ended before its day; null: it was not.',
      select: { ends: { select: { reason: true } } },
      resolve: ({ ends: [end] }) => end?.reason ?? null,
    }),
    at: t.expose('at', { type: 'DateTime', description: 'When it was kept.' }),
    by: t.relation('by', { description: 'Who kept it.' }),
  }),
});

const inOrder = { orderBy: [{ validUntil: 'desc' as const }, { id: 'desc' as const }] };

builder.prismaObjectField('Contact', 'exemptions', (t) =>
  t.relation('exemptions', {
    description: 'Their exemptions from tax, the last to end first.',
    query: inOrder,
  }),
);
builder.prismaObjectField('Aircraft', 'exemptions', (t) =>
  t.relation('exemptions', {
    description: 'Its exemptions from tax, the last to end first.',
    query: inOrder,
  }),
);
builder.prismaObjectField('Contact', 'aircraft', (t) =>
  t.prismaField({
    type: ['Aircraft'],
    description: 'The aircraft that they are, or were, something to, by registration.',
    select: { id: true },
    resolve: (query, { id: contactId }, _, { read }) =>
      read.aircraft.findMany({
        ...query,
        where: { contacts: { some: { contactId } } },
        orderBy: { registration: 'asc' },
      }),
  }),
);

builder.prismaObjectField('Quote', 'endedExemptions', (t) =>
  t.stringList({
    description:
      'Exemptions from tax of who would pay or of the aircraft that ended and that nothing has followed, a sentence each.',
    select: { contactId: true, aircraftId: true },
    resolve: async (taxed, _, context) =>
      endedWords(await exemptionsOf(context.read, taxed), await shopToday(context)),
  }),
);

const EndExemptionInput = builder.inputType('EndExemptionInput', {
  description: 'An exemption that does not hold any more.',
  fields: (t) => ({
    exemptionId: t.id({ required: true, description: 'Which.' }),
    reason: t.string({ required: true, description: 'Why, 3 to 300 characters.' }),
  }),
});

builder.mutationField('endExemption', (t) =>
  t.prismaField({
    type: 'TaxExemption',
    errors: {},
    description:
      'Ends an exemption from tax from now on; what was billed stays. For the front desk and the manager.',
    args: { input: t.arg({ type: EndExemptionInput, required: true, description: 'Which.' }) },
    resolve: async (query, _, { input }, context) => {
      const id = await endExemption(context, {
        exemptionId: keyOf('TaxExemption', input.exemptionId, 'exemptionId'),
        reason: input.reason,
      });
      return context.read.taxExemption.findUniqueOrThrow({ ...query, where: { id } });
    },
  }),
);

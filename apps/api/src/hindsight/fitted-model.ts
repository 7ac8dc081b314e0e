import type { Tx } from '@fairlead/database';
import { builder } from '../builder.ts';

/** What is told of a fitted model, without its content. */
export const fittedModel = (read: Tx, id: string) =>
  read.hoursModel.findUniqueOrThrow({
    where: { id },
    select: {
      number: true,
      fittedAt: true,
      version: true,
      items: true,
      censored: true,
      odd: true,
      settled: true,
      fitMs: true,
      priors: { select: { revision: true } },
    },
  });

type Row = Awaited<ReturnType<typeof fittedModel>>;

export const FittedModelType = builder.objectRef<Row>('FittedHoursModel').implement({
  description: 'A model of the shop’s hours as it was fitted.',
  fields: (t) => ({
    number: t.exposeInt('number', {
      description: 'Counted from 1; a quote names the one that made it.',
    }),
    fittedAt: t.expose('fittedAt', { type: 'DateTime', description: 'When.' }),
    version: t.exposeString('version', { description: 'Of the way in which it was fitted.' }),
    items: t.exposeInt('items', {
      description: 'Past items that it learned from, lower bounds among them.',
    }),
    lowerBounds: t.exposeInt('censored', {
      description: 'Of those, items that were handed over unfinished.',
    }),
    odd: t.exposeInt('odd', {
      description: 'Of those, items that count less than half, because they lie far from the rest.',
    }),
    settled: t.exposeBoolean('settled', {
      description: 'False where the fit ended before its weights stood still.',
    }),
    fitMs: t.exposeInt('fitMs', { description: 'How long the fit took, milliseconds.' }),
    tableRevision: t.int({
      description: 'The table of access priors that it began from; 0 is the program’s own.',
      resolve: ({ priors }) => priors?.revision ?? 0,
    }),
  }),
});

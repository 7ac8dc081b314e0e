import { ChecklistEventKind } from '@fairlead/database';
import { builder } from '../builder.ts';
import { keyOf } from '../ids.ts';
import { type ChecklistLine, checklistFacts, checklistLines } from './checklist.ts';
import { eventFields } from './event-fields.ts';
import { initialLine } from './initial-line.ts';

builder.enumType(ChecklistEventKind, {
  name: 'ChecklistEventKind',
  description: 'What happened to a line of a checklist.',
  values: {
    initialled: { description: 'Somebody did what it says.' },
    withdrawn: { description: 'It was not done after all.' },
  },
});

type Line = ChecklistLine & { by: { name: string; initials: string } | null };
const LineType = builder.objectRef<Line>('ChecklistLine').implement({
  description: "A line of an item's checklist, with its initials.",
  fields: (t) => ({
    number: t.exposeInt('number', { description: 'Its place in the list, from 1.' }),
    words: t.exposeString('words', { description: 'What is looked at or done.' }),
    initials: t.string({
      nullable: true,
      description: 'Whose initials stand under it; null: nobody’s.',
      resolve: ({ by }) => by?.initials ?? null,
    }),
    by: t.string({
      nullable: true,
      description: 'Who that is.',
      resolve: ({ by }) => by?.name ?? null,
    }),
    at: t.field({
      type: 'DateTime',
      nullable: true,
      description: 'Since when.',
      resolve: ({ initialled }) => initialled?.at ?? null,
    }),
  }),
});

builder.prismaObjectField('WorkItem', 'checklist', (t) =>
  t.field({
    type: [LineType],
    description:
      'Its checklist, as the task had it when the item was opened; each line is initialled.',
    select: {
      checklist: true,
      checklistEvents: {
        orderBy: checklistFacts.checklistEvents.orderBy,
        select: {
          ...checklistFacts.checklistEvents.select,
          by: { select: { id: true, name: true, initials: true } },
        },
      },
    },
    resolve: (item) => {
      const people = new Map(item.checklistEvents.map(({ by }) => [by.id, by]));
      return checklistLines(item).map((line) => ({
        ...line,
        by: (line.initialled && people.get(line.initialled.byId)) ?? null,
      }));
    },
  }),
);

const InitialLineInput = builder.inputType('InitialLineInput', {
  description: "Initials under one line of an item's checklist.",
  fields: (t) => ({
    itemId: t.id({ required: true, description: 'The item.' }),
    line: t.int({ required: true, description: 'Which line of its list, from 1.' }),
    kind: t.field({
      type: ChecklistEventKind,
      required: true,
      description: 'Initialled, or taken back.',
    }),
    ...eventFields(t),
  }),
});

builder.mutationField('initialLine', (t) =>
  t.prismaField({
    type: 'WorkItem',
    errors: {},
    description:
      'Initials one line of a checklist, or takes that back. There is no way to do several at once.',
    args: { input: t.arg({ type: InitialLineInput, required: true, description: 'Which.' }) },
    resolve: async (query, _, { input }, context) => {
      const id = await initialLine(context, {
        ...input,
        itemId: keyOf('WorkItem', input.itemId, 'itemId'),
        at: input.at ?? null,
      });
      return context.read.workItem.findUniqueOrThrow({ ...query, where: { id } });
    },
  }),
);

import { hundredths } from '@fairlead/airworthiness';
import { DueEventKind, DueKind, DueRule, InspectionKind } from '@fairlead/database';
import { builder } from '../builder.ts';
import { Refused } from '../errors.ts';
import { globalId } from '../ids.ts';
import { shopToday } from '../today.ts';
import { CounterType, CountsType } from './counts-schema.ts';
import { countsOf, DueCountType } from './due-count-schema.ts';
import type { DueLine } from './due-line.ts';
import { type DueList, dueListsOf } from './due-list.ts';
import { countersAsked, dateOf, lastOf } from './due-terms.ts';
import { inspectionOf, inspectionPackages } from './inspection-package.ts';

builder.enumType(DueKind, {
  name: 'DueKind',
  description: 'What it is that falls due.',
  values: {
    inspection: { description: 'An inspection or test.' },
    directive: { description: 'An airworthiness directive.' },
    bulletin: { description: "A maker's bulletin that the owner has chosen." },
    limit: { description: 'A life limit of a part.' },
    overhaul: { description: 'An overhaul.' },
  },
});
builder.enumType(DueRule, {
  name: 'DueRule',
  description: 'By which rule it is reckoned.',
  values: {
    hundred_hour: { description: '14 CFR 91.409(b): 100 hours.' },
    annual: { description: '14 CFR 91.409(a): 12 calendar months.' },
    calendar_months: { description: 'To the end of a month, as in 14 CFR 91.411, 91.413, 91.207.' },
    recurring: { description: 'From the last compliance, without an allowance.' },
    life_limit: { description: 'A life, from when the part was new.' },
    once: { description: 'Once, not later than its limit.' },
  },
});
builder.enumType(DueEventKind, {
  name: 'DueEventKind',
  description: 'What happened to something due.',
  values: {
    complied: { description: 'It was complied with.' },
    terminated: {
      description: 'It was complied with by what ends the repeat: its terminating action.',
    },
    ended: { description: 'It falls due no more here: it was superseded, or never applied.' },
  },
});
export const DueStateType = builder.enumType('DueState', {
  description: 'How the aircraft stands against something due.',
  values: {
    ok: { description: 'Not soon.' },
    due_soon: { description: 'Within the hours or days that were asked.' },
    due: { description: 'Nothing remains, and nothing is exceeded.' },
    within_allowance: { description: 'Past due on the way to the inspection (14 CFR 91.409(b)).' },
    overdue: { description: 'Past due.' },
  },
});

const day = (value: number | null | undefined) =>
  value === null || value === undefined ? null : dateOf(value);

export const DueLineType = builder.objectRef<DueLine>('DueLine').implement({
  description: 'Something that falls due, and how the aircraft stands against it.',
  fields: (t) => ({
    itemId: t.id({ description: 'The item.', resolve: ({ row }) => globalId('DueItem', row.id) }),
    kind: t.field({ type: DueKind, description: 'What it is.', resolve: ({ row }) => row.kind }),
    title: t.string({ description: 'Its name.', resolve: ({ row }) => row.title }),
    number: t.string({
      description: 'Number of a directive or bulletin.',
      resolve: ({ row }) => row.number,
    }),
    revision: t.string({ description: 'Its revision.', resolve: ({ row }) => row.revision }),
    source: t.string({ description: 'Where its terms stand.', resolve: ({ row }) => row.source }),
    part: t.string({
      nullable: true,
      description: 'The part that it is about, with its serial number.',
      resolve: ({ row: { component } }) =>
        component ? `${component.title}, serial ${component.serial}` : null,
    }),
    quotable: t.boolean({
      description: 'Whether the shop has a task for it, so that it can go onto a quote.',
      resolve: ({ row }) => row.taskId !== null,
    }),
    inspection: t.field({
      type: InspectionKind,
      nullable: true,
      description:
        'Which inspection it asks for, quoted by a package that is one; an annual counts for the 100-hour too (14 CFR 91.409(b)). Null: none.',
      resolve: ({ row }) => inspectionOf(row.rule),
    }),
    repeats: t.boolean({
      description: 'Whether it is repeated until something ends the repeat.',
      resolve: ({ row }) => row.rule === 'recurring',
    }),
    opening: t.prismaField({
      type: 'Task',
      nullable: true,
      description: 'What has to be opened for it; quoted once for all that is done behind it.',
      resolve: (query, { row: { task } }, _, { read }) =>
        task?.openingId ? read.task.findUnique({ ...query, where: { id: task.openingId } }) : null,
    }),
    state: t.field({
      type: DueStateType,
      nullable: true,
      description: 'How the aircraft stands; null where it cannot be said.',
      resolve: ({ due }) => due?.state ?? null,
    }),
    because: t.string({
      description: 'One sentence with the paragraph; or why nothing can be said.',
      resolve: ({ due, problem }) => due?.because ?? problem ?? '',
    }),
    dueOn: t.field({
      type: 'Date',
      nullable: true,
      description: 'The last day on which it is not overdue.',
      resolve: ({ due }) => day(due?.due.date),
    }),
    dueAtHundredths: t.int({
      nullable: true,
      description: 'Time in service at which it is due, hundredths of an hour.',
      resolve: ({ due }) => due?.due.tis ?? null,
    }),
    remainingHundredths: t.int({
      nullable: true,
      description: 'Hours left, hundredths; below 0 past due.',
      resolve: ({ due }) => due?.remaining.hours ?? null,
    }),
    remainingDays: t.int({
      nullable: true,
      description: 'Days left; below 0 past due.',
      resolve: ({ due }) => due?.remaining.days ?? null,
    }),
    counts: t.field({
      type: [DueCountType],
      description: 'By which of cycles, landings and starts it is due; of most items none.',
      resolve: countsOf,
    }),
    countsAsked: t.field({
      type: [CounterType],
      description: 'Which counts have to be given when it is recorded as done.',
      resolve: ({ row }) => countersAsked(row),
    }),
    projectedOn: t.field({
      type: 'Date',
      nullable: true,
      description:
        'When the hours will have been flown, or so many counted, by its own use; null: too little is known.',
      resolve: ({ projected }) => day(projected?.usual),
    }),
    projectedFrom: t.field({
      type: 'Date',
      nullable: true,
      description: 'The same if it flies as in its busiest weeks.',
      resolve: ({ projected }) => day(projected?.earliest),
    }),
    projectedTo: t.field({
      type: 'Date',
      nullable: true,
      description: 'The same if it flies as in its quietest weeks; null: it did not fly then.',
      resolve: ({ projected }) => day(projected?.latest),
    }),
    lastOn: t.field({
      type: 'Date',
      nullable: true,
      description: 'When it was last complied with.',
      resolve: ({ row }) => lastOf(row)?.doneOn ?? null,
    }),
    lastAtHundredths: t.int({
      nullable: true,
      description: 'Time in service then, hundredths of an hour.',
      resolve: ({ row }) => lastOf(row)?.tisHundredths ?? null,
    }),
    lastMethod: t.string({
      nullable: true,
      description: 'How it was complied with.',
      resolve: ({ row }) => lastOf(row)?.method ?? null,
    }),
  }),
});

const DueListType = builder.objectRef<DueList>('DueList').implement({
  description: 'What falls due on an aircraft, most pressing first.',
  fields: (t) => ({
    tisHundredths: t.exposeInt('tisHundredths', {
      nullable: true,
      description: 'Its newest time in service, hundredths of an hour; null: no meter was read.',
    }),
    counts: t.field({
      type: CountsType,
      description: 'What was counted last of each.',
      resolve: ({ counted }) => counted.counts,
    }),
    lines: t.field({
      type: [DueLineType],
      description: 'The items.',
      resolve: ({ lines }) => lines,
    }),
  }),
});

function soonFrom(given: number, most: number, field: string): number {
  if (given < 0 || given > most)
    throw new Refused('BAD_INPUT', `${field} is ${given}: needed is 0 to ${most}.`, field);
  return given;
}

builder.prismaObjectField('Aircraft', 'due', (t) =>
  t.field({
    type: DueListType,
    description: 'What falls due on it. Due dates are aids; the owner stays responsible.',
    args: {
      soonHundredths: t.arg.int({
        defaultValue: 1000,
        description: 'From how many hundredths of an hour something is due soon; 0 to 1,000,000.',
      }),
      soonDays: t.arg.int({ defaultValue: 30, description: 'From how many days; 0 to 10,000.' }),
    },
    select: { id: true },
    resolve: async ({ id }, { soonHundredths, soonDays }, context) => {
      const [list] = await dueListsOf(context.read, id, await shopToday(context), {
        hours: hundredths(soonFrom(soonHundredths ?? 1000, 1_000_000, 'soonHundredths')),
        days: soonFrom(soonDays ?? 30, 10_000, 'soonDays'),
      });
      if (!list) throw new Error('an aircraft that was read has its list');
      return list;
    },
  }),
);

builder.prismaObjectField('Aircraft', 'inspectionPackages', (t) =>
  t.prismaField({
    type: ['Package'],
    description: 'Packages on offer that are an inspection of it, those made for its model first.',
    select: { id: true },
    resolve: async (query, { id }, _, { read }) => {
      const ids = await inspectionPackages(read, id);
      const packs = await read.package.findMany({ ...query, where: { id: { in: ids } } });
      return packs.toSorted((one, other) => ids.indexOf(one.id) - ids.indexOf(other.id));
    },
  }),
);

builder.prismaNode('DueItem', {
  id: { field: 'id' },
  description: 'Something that falls due on an aircraft, with its terms.',
  fields: (t) => ({
    title: t.exposeString('title', { description: 'Its name.' }),
    aircraft: t.relation('aircraft', { description: 'The aircraft.' }),
  }),
});

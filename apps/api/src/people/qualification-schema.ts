import { kindsOfWork, type WorkKind } from '@fairlead/airworthiness';
import { QualificationKind } from '@fairlead/database';
import { builder } from '../builder.ts';
import { allow } from '../context.ts';
import { keyOf } from '../ids.ts';
import { stateQualification, withdrawQualification } from './state-qualification.ts';

builder.enumType(QualificationKind, {
  name: 'QualificationKind',
  description: 'What a signature rests on besides a certificate.',
  values: {
    work_done: { description: 'Such work was done satisfactorily before: 14 CFR 65.81(a).' },
    work_shown: { description: 'The ability was shown under direct supervision: 65.81(a).' },
    served: { description: 'Served as a mechanic, or supervised, in these days: 65.83(b).' },
    found_able: { description: 'The authority found them able: 65.83(a).' },
    inspection_activity: { description: 'One of the activities of 65.93(a) was completed.' },
    release_authorised: {
      description: 'On the station’s roster for signing a release: 145.157, 145.161(a)(3).',
    },
    station_rating: { description: 'A rating of the station: 145.59.' },
  },
});

builder.prismaNode('Qualification', {
  id: { field: 'id' },
  description: 'Stated by name, with its paper. Never changed; withdrawn by another.',
  fields: (t) => ({
    kind: t.expose('kind', { type: QualificationKind, description: 'What.' }),
    subject: t.exposeString('subject', { description: 'A kind of work, a rating, or nothing.' }),
    about: t.string({
      description: 'Its subject in words.',
      select: { subject: true },
      resolve: ({ subject }) =>
        subject in kindsOfWork ? kindsOfWork[subject as WorkKind].title : subject,
    }),
    validFrom: t.expose('validFrom', { type: 'Date', description: 'From this day.' }),
    validUntil: t.expose('validUntil', {
      type: 'Date',
      nullable: true,
      description: 'Through this day; null: it goes on.',
    }),
    paper: t.exposeString('paper', { description: 'Where it stands.' }),
    withdrawn: t.string({
      nullable: true,
      description: 'Why it does not hold any more; null: it holds.',
      select: { withdrawnBy: { select: { paper: true } } },
      resolve: ({ withdrawnBy }) => withdrawnBy?.paper ?? null,
    }),
    person: t.relation('person', { nullable: true, description: 'Whose; null: the shop’s own.' }),
    at: t.expose('at', { type: 'DateTime', description: 'When it was entered.' }),
    by: t.relation('by', { description: 'Who entered it.' }),
  }),
});

builder.queryField('qualifications', (t) =>
  t.prismaField({
    type: ['Qualification'],
    errors: {
      result: { description: 'The qualifications, for whoever may see them.' },
      dataField: { description: 'Newest first.' },
    },
    description:
      'What signatures rest on besides certificates, of everybody and of the shop. For the manager and inspectors.',
    resolve: async (query, _, __, context) => {
      await allow(context, 'manager', 'inspector');
      return context.read.qualification.findMany({
        ...query,
        where: { withdrawsId: null },
        orderBy: [{ validFrom: 'desc' }, { id: 'desc' }],
      });
    },
  }),
);

interface Kind {
  key: string;
  title: string;
}
const KindOfWorkType = builder.objectRef<Kind>('KindOfWorkToApprove').implement({
  description: 'A kind of work that somebody may approve.',
  fields: (t) => ({
    key: t.exposeString('key', { description: 'As a qualification names it.' }),
    title: t.exposeString('title', { description: 'In words.' }),
  }),
});
builder.queryField('kindsOfWorkToApprove', (t) =>
  t.field({
    type: [KindOfWorkType],
    description: 'The kinds of work that qualifications speak of.',
    resolve: () => Object.entries(kindsOfWork).map(([key, { title }]) => ({ key, title })),
  }),
);

const StateQualificationInput = builder.inputType('StateQualificationInput', {
  description: 'What a signature rests on besides a certificate.',
  fields: (t) => ({
    personId: t.id({ description: 'Whose; left out: the shop’s own.' }),
    kind: t.field({ type: QualificationKind, required: true, description: 'What.' }),
    subject: t.string({ description: 'The kind of work, or the rating, where it needs one.' }),
    validFrom: t.field({ type: 'Date', required: true, description: 'From this day.' }),
    validUntil: t.field({ type: 'Date', description: 'Through this day; left out: it goes on.' }),
    paper: t.string({
      required: true,
      description: 'Where it stands, who supervised: 3 to 300 characters.',
    }),
  }),
});

builder.mutationFields((t) => ({
  stateQualification: t.prismaField({
    type: 'Qualification',
    errors: {},
    description: 'Enters what a signature rests on besides a certificate. For the manager.',
    args: { input: t.arg({ type: StateQualificationInput, required: true, description: 'What.' }) },
    resolve: async (query, _, { input }, context) => {
      const id = await stateQualification(context, {
        ...{ kind: input.kind, validFrom: input.validFrom, paper: input.paper },
        personId: input.personId ? keyOf('Person', input.personId, 'personId') : null,
        subject: input.subject ?? '',
        validUntil: input.validUntil ?? null,
      });
      return context.read.qualification.findUniqueOrThrow({ ...query, where: { id } });
    },
  }),
  withdrawQualification: t.prismaField({
    type: 'Qualification',
    errors: {},
    description: 'Says that it does not hold, or no longer. For the manager.',
    args: {
      qualificationId: t.arg.id({ required: true, description: 'Which.' }),
      words: t.arg.string({ required: true, description: 'Why, 3 to 300 characters.' }),
    },
    resolve: async (query, _, { qualificationId, words }, context) => {
      const id = await withdrawQualification(context, {
        qualificationId: keyOf('Qualification', qualificationId, 'qualificationId'),
        words,
      });
      return context.read.qualification.findUniqueOrThrow({ ...query, where: { id } });
    },
  }),
}));

import { builder } from '../builder.ts';
import { floorVersion, lastStays, MovedMeanwhile } from './floor-version.ts';

builder.prismaObjectField('Aircraft', 'floorVersion', (t) =>
  t.string({
    description:
      'Changes with every move and plan of this aircraft. Given back with a change, so that two people do not undo each other unseen.',
    select: { stays: lastStays },
    resolve: ({ stays }) => floorVersion(stays),
  }),
);

builder.objectType(MovedMeanwhile, {
  name: 'MovedMeanwhile',
  description: 'Somebody moved or planned the aircraft after it was looked at. Nothing was saved.',
  fields: (t) => ({
    message: t.exposeString('message', {
      description: 'One sentence: who, when, and where it stands now.',
    }),
    by: t.exposeString('by', { nullable: true, description: 'Who did it.' }),
    at: t.field({
      type: 'DateTime',
      nullable: true,
      description: 'When it was done.',
      resolve: (moved) => moved.at,
    }),
    stay: t.prismaField({
      type: 'Stay',
      nullable: true,
      description: 'Where the aircraft stands now; null: on no stand.',
      resolve: (query, { stayId }, _, { read }) =>
        stayId ? read.stay.findUnique({ ...query, where: { id: stayId } }) : null,
    }),
  }),
});

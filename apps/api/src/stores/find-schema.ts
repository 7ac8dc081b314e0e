import { builder } from '../builder.ts';
import { findInStores } from './find-in-stores.ts';

const FoundInStores = builder
  .objectRef<{ lotIds: string[]; partIds: string[] }>('FoundInStores')
  .implement({
    description: 'What a code names that was read or typed whole.',
    fields: (t) => ({
      lots: t.prismaField({
        type: ['Lot'],
        description: 'Lots with that batch, serial number or certificate, what is left first.',
        resolve: (query, { lotIds }, _, { read }) =>
          read.lot.findMany({
            ...query,
            where: { id: { in: lotIds } },
            orderBy: [{ onHand: 'desc' }, { receivedOn: 'desc' }, { id: 'asc' }],
          }),
      }),
      parts: t.prismaField({
        type: ['Part'],
        description: 'Parts with that number.',
        resolve: (query, { partIds }, _, { read }) =>
          read.part.findMany({
            ...query,
            where: { id: { in: partIds } },
            orderBy: [{ number: 'asc' }, { id: 'asc' }],
          }),
      }),
    }),
  });

builder.queryField('findInStores', (t) =>
  t.field({
    type: FoundInStores,
    description:
      'Parts and lots by a whole number, read by a camera or typed: part number, batch, serial number or certificate. Blanks, hyphens and case do not count.',
    args: { code: t.arg.string({ required: true, description: 'The code.' }) },
    resolve: (_, { code }, { read }) => findInStores(read, code),
  }),
);

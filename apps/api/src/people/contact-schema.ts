import { builder } from '../builder.ts';
import { literally } from '../literally.ts';
import { PostalAddressInput } from '../postal-address.ts';
import { addContact } from './add-contact.ts';

const MOST = 500;

const AddContactInput = builder.inputType('AddContactInput', {
  description: 'Somebody outside the shop.',
  fields: (t) => ({
    name: t.string({ required: true, description: '1 to 120 characters.' }),
    email: t.string({ description: 'Where their mail goes.' }),
    phone: t.string({ description: 'At most 40 characters.' }),
    postalAddress: t.field({
      type: PostalAddressInput,
      description: 'Where post and invoices go.',
    }),
  }),
});

builder.queryFields((t) => ({
  contacts: t.prismaField({
    type: ['Contact'],
    description: `Everybody outside the shop, by name, at most ${MOST}.`,
    args: { named: t.arg.string({ description: 'What their name contains.' }) },
    resolve: (query, _, { named }, { read }) =>
      read.contact.findMany({
        ...query,
        ...(named && {
          where: { name: { contains: literally(named.slice(0, 120)), mode: 'insensitive' } },
        }),
        orderBy: [{ name: 'asc' }, { id: 'asc' }],
        take: MOST,
      }),
  }),
}));

builder.mutationFields((t) => ({
  addContact: t.prismaField({
    type: 'Contact',
    errors: {},
    description: 'Adds somebody outside the shop. For the front desk and the manager.',
    args: { input: t.arg({ type: AddContactInput, required: true, description: 'Who.' }) },
    resolve: async (query, _, { input }, context) => {
      const id = await addContact(context, {
        name: input.name,
        email: input.email ?? null,
        phone: input.phone ?? null,
        postalAddress: input.postalAddress ?? null,
      });
      return context.read.contact.findUniqueOrThrow({ ...query, where: { id } });
    },
  }),
}));

import { builder } from '../../builder.ts';
import { allow } from '../../context.ts';
import { changeKey } from './change-key.ts';

builder.prismaNode('ShopKey', {
  id: { field: 'id' },
  description: 'A key that signs the shop’s records, by its public half.',
  fields: (t) => ({
    fingerprint: t.exposeString('fingerprint', {
      description: 'Thumbprint of RFC 7638: what is printed on each entry.',
    }),
    madeAt: t.expose('madeAt', { type: 'DateTime', description: 'When it first signed.' }),
    links: t.relationCount('links', { description: 'Records that it signed.' }),
    replaced: t.relation('replaced', {
      nullable: true,
      description: 'What took over from it; null: it signs now.',
    }),
  }),
});

builder.prismaNode('ShopKeyChange', {
  id: { field: 'id' },
  description: 'How a new key took over. Never changed; it stands in every archive.',
  fields: (t) => ({
    lost: t.exposeBoolean('lost', {
      description: 'The old key was gone, or trusted no more: it did not sign its hand-over.',
    }),
    reason: t.exposeString('reason', { description: 'Why.' }),
    at: t.expose('at', { type: 'DateTime', description: 'When.' }),
    by: t.relation('by', { description: 'Who said so.' }),
    to: t.relation('to', { description: 'The key that took over.' }),
  }),
});

builder.queryField('shopKeys', (t) =>
  t.prismaField({
    type: ['ShopKey'],
    errors: {
      result: { description: 'The keys, for whoever may see them.' },
      dataField: { description: 'Newest first.' },
    },
    description: 'The keys that signed the shop’s records, newest first.',
    resolve: async (query, _, __, context) => {
      await allow(context, 'manager', 'inspector', 'front_desk');
      return context.read.shopKey.findMany({
        ...query,
        orderBy: [{ madeAt: 'desc' }, { id: 'desc' }],
      });
    },
  }),
);

builder.mutationField('changeShopKey', (t) =>
  t.prismaField({
    type: 'ShopKeyChange',
    errors: {},
    description: 'A new key takes over from the one that signs now. For the manager.',
    args: {
      lost: t.arg.boolean({
        required: true,
        description: 'Whether the old key is gone, or trusted no more.',
      }),
      reason: t.arg.string({ required: true, description: 'Why, 3 to 500 characters.' }),
      signature: t.arg.string({ required: true, description: 'Your own name, typed in full.' }),
    },
    resolve: async (query, _, given, context) => {
      const id = await changeKey(context, given);
      return context.read.shopKeyChange.findUniqueOrThrow({ ...query, where: { id } });
    },
  }),
);

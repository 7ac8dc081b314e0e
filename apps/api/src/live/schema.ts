import { builder } from '../builder.ts';
import type { Context } from '../context.ts';
import { Refused } from '../errors.ts';
import type { News } from './shop-news.ts';

const ChangesRef = builder.objectRef<News>('Changes').implement({
  description:
    'Something in the shop changed. What it is now is asked for anew, by whoever may see it.',
  fields: (t) => ({
    things: t.stringList({
      description:
        'Of what kinds the things are, as the audit names them; empty when anything may have changed.',
      resolve: (news) => [...news].sort(),
    }),
  }),
});

builder.subscriptionType({
  description: 'What is told as it happens, as server-sent events at /graphql/stream.',
});

/** Apollo would run a subscription once, as if it were a query. */
function streamed({ news }: Context): NonNullable<Context['news']> {
  if (news) return news;
  throw new Refused(
    'BAD_INPUT',
    'Changes are told as server-sent events: ask for them at /graphql/stream.',
  );
}

builder.subscriptionField('changes', (t) =>
  t.field({
    type: ChangesRef,
    description: 'Tells that something in the shop changed, as soon as it is committed.',
    subscribe: (_root, _arguments, context) => streamed(context)(),
    resolve: (news, _arguments, context) => {
      streamed(context);
      return news;
    },
  }),
);

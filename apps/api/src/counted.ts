import type { Types } from './builder.ts';

/** Second argument of a connection that counts: its totalCount, which says nothing of itself otherwise. */
export const counted = {
  fields: (t: PothosSchemaTypes.ObjectFieldBuilder<Types, object>) => ({
    totalCount: t.int({
      description: 'How many there are in all, on every page together.',
      // So that a request for nothing else reads no row.
      extensions: { pothosPrismaTotalCount: true },
      resolve: (page) => {
        if (!('totalCount' in page && typeof page.totalCount === 'function'))
          throw new TypeError('a connection without totalCount was given the field totalCount');
        return page.totalCount();
      },
    }),
  }),
};

import { queryOptions } from '@tanstack/react-query';
import { request } from '../../graphql/request.ts';
import { ItemSheetDocument } from './item-documents.ts';

/** The sheet of one item; null where there is no such item in this shop. */
export const itemAsked = (id: string) =>
  queryOptions({
    queryKey: ['item', id],
    queryFn: async () => {
      const { node } = await request(ItemSheetDocument, { id });
      return node?.__typename === 'WorkItem' ? node : null;
    },
  });

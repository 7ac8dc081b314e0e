import { queryOptions, useQuery } from '@tanstack/react-query';
import { request } from '../../graphql/request.ts';
import { ItemCareDocument, TorqueChoicesDocument } from './item-documents.ts';
import { OpenOnOrderDocument } from './order-documents.ts';

export const orderAsked = (orderId: string) =>
  queryOptions({
    queryKey: ['openOnOrder', orderId],
    queryFn: async () => {
      const { node } = await request(OpenOnOrderDocument, { id: orderId });
      return node?.__typename === 'WorkOrder' ? node : null;
    },
  });

export const torqueChoicesAsked = queryOptions({
  queryKey: ['torqueChoices'],
  queryFn: () => request(TorqueChoicesDocument),
});

/** What is open on an order; asked once for however many parts of a page show it. */
export const useOpenOnOrder = (orderId: string) => useQuery(orderAsked(orderId));

/** What was checked and tightened at an item. */
export const useItemCare = (itemId: string) =>
  useQuery({
    queryKey: ['itemCare', itemId],
    queryFn: async () => {
      const { node } = await request(ItemCareDocument, { id: itemId });
      return node?.__typename === 'WorkItem' ? node : null;
    },
  });

import { useQuery } from '@tanstack/react-query';
import { request } from '../../graphql/request.ts';
import { MayBeDocument } from './documents.ts';

/** A finding with what it may be; null where the shop has no such finding. Asked once, wherever it is shown. */
export const useMayBe = (findingId: string) =>
  useQuery({
    queryKey: ['mayBe', findingId],
    queryFn: async () => {
      const { node } = await request(MayBeDocument, { id: findingId });
      return node?.__typename === 'Finding' ? node : null;
    },
  });

import { useMutation, useQueryClient } from '@tanstack/react-query';
import { request } from '../../graphql/request.ts';
import { SecondLookDocument } from './item-documents.ts';
import { outbox } from './outbox.ts';

/** Gives the second look of a critical item, with what this device has noted already at the shop. */
export function useSecondLook() {
  const queries = useQueryClient();
  return useMutation({
    mutationFn: async (itemId: string) => {
      if (!(await outbox.settle())) {
        throw new Error(
          'The shop’s server cannot be reached from here. A second look is given to the item as it stands there: try again with a signal.',
        );
      }
      const { result } = await request(SecondLookDocument, { input: { itemId, second: true } });
      if (result.__typename === 'Refusal') throw new Error(result.message);
    },
    onSuccess: () =>
      Promise.all([
        queries.invalidateQueries({ queryKey: ['bench'] }),
        queries.invalidateQueries({ queryKey: ['item'] }),
      ]),
  });
}

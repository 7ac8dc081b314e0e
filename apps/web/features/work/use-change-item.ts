import { useMutation, useQueryClient } from '@tanstack/react-query';
import type { FinishItemInput, WaitItemInput } from '../../graphql/generated/graphql.ts';
import { request } from '../../graphql/request.ts';
import {
  FinishItemDocument,
  ReopenItemDocument,
  ResumeItemDocument,
  SecondLookDocument,
  WaitItemDocument,
} from './bench-documents.ts';
import { outbox } from './outbox.ts';

export type ItemChange =
  | { kind: 'wait'; input: WaitItemInput }
  | { kind: 'resume'; itemId: string }
  | { kind: 'finish'; input: FinishItemInput }
  | { kind: 'reopen'; itemId: string; reason: string }
  | { kind: 'second'; itemId: string };

async function change(asked: ItemChange): Promise<void> {
  // The clock comes first: an item whose clock still runs at the shop cannot be finished or wait.
  if (!(await outbox.settle())) {
    throw new Error(
      'The shop’s server cannot be reached from here; the clock is not sent yet. What you wrote stays here: try again when it is.',
    );
  }
  const { result } = await send(asked);
  if (result.__typename === 'Refusal') throw new Error(result.message);
}

async function send(
  asked: ItemChange,
): Promise<{ result: { __typename: 'WorkItem' } | { __typename: 'Refusal'; message: string } }> {
  switch (asked.kind) {
    case 'wait':
      return request(WaitItemDocument, { input: asked.input });
    case 'resume':
      return request(ResumeItemDocument, { input: { itemId: asked.itemId } });
    case 'finish':
      return request(FinishItemDocument, { input: asked.input });
    case 'reopen':
      return request(ReopenItemDocument, {
        input: { itemId: asked.itemId, reason: asked.reason },
      });
    case 'second':
      return request(SecondLookDocument, { input: { itemId: asked.itemId, second: true } });
  }
}

/** Changes what happens to an item besides its clock. */
export function useChangeItem(onDone: () => void) {
  const queries = useQueryClient();
  return useMutation({
    mutationFn: change,
    onSuccess: async () => {
      await Promise.all([
        queries.invalidateQueries({ queryKey: ['bench'] }),
        queries.invalidateQueries({ queryKey: ['item'] }),
      ]);
      onDone();
    },
  });
}

export type ChangeItem = ReturnType<typeof useChangeItem>;

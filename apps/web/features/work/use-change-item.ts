import { useMutation, useQueryClient } from '@tanstack/react-query';
import type {
  CorrectClockInput,
  FinishItemInput,
  WaitItemInput,
} from '../../graphql/generated/graphql.ts';
import { request } from '../../graphql/request.ts';
import {
  CorrectClockDocument,
  FinishItemDocument,
  PutOffItemDocument,
  ReopenItemDocument,
  ResumeItemDocument,
  SecondLookDocument,
  WaitItemDocument,
} from './item-documents.ts';
import { outbox } from './outbox.ts';

export type ItemChange =
  | { kind: 'wait'; input: WaitItemInput }
  | { kind: 'resume'; itemId: string }
  | { kind: 'finish'; input: FinishItemInput }
  | { kind: 'reopen'; itemId: string; reason: string }
  | { kind: 'putOff'; itemId: string; reason: string }
  /** One or both ends of a stretch; each is an event of its own. */
  | { kind: 'correct'; inputs: readonly CorrectClockInput[] }
  | { kind: 'second'; itemId: string };

async function change(asked: ItemChange): Promise<void> {
  // The clock comes first: an item whose clock still runs at the shop cannot be finished or wait.
  if (!(await outbox.settle())) {
    throw new Error(
      'The shop’s server cannot be reached from here; the clock is not sent yet. What you wrote stays here: try again when it is.',
    );
  }
  if (asked.kind === 'correct') {
    for (const input of asked.inputs) taken(await request(CorrectClockDocument, { input }));
    return;
  }
  taken(await send(asked));
}

interface Answer {
  result: { __typename: string; message?: string };
}

function taken({ result }: Answer): void {
  if (result.__typename === 'Refusal') throw new Error(result.message);
}

async function send(asked: Exclude<ItemChange, { kind: 'correct' }>): Promise<Answer> {
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
    case 'putOff':
      return request(PutOffItemDocument, {
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

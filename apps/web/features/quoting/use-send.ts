import { useMutation, useQueryClient } from '@tanstack/react-query';
import { useRef } from 'react';
import type {
  Channel,
  DraftQuoteInput,
  ReviseQuoteInput,
} from '../../graphql/generated/graphql.ts';
import { request } from '../../graphql/request.ts';
import { clientId } from '../../lib/client-id.ts';
import { DraftQuoteDocument, ReviseQuoteDocument, SendQuoteDocument } from './quote-mutations.ts';

/** What is kept: a new quote, or the next revision of one. */
export type ToKeep =
  | { kind: 'draft'; input: Omit<DraftQuoteInput, 'clientEventId'> }
  | { kind: 'revision'; input: ReviseQuoteInput };

export interface Keeping {
  what: ToKeep;
  /** Null: it stays a draft. */
  channel: Channel | null;
}

export interface Kept {
  quoteId: string;
  /** Why it was kept but not sent. */
  notSent: string | null;
}

/** What the shop said no to, with its sentence. */
export class NotKept extends Error {
  override readonly name = 'NotKept';
}

/** Keeps a quote and, if asked, records it as sent. The same lines sent twice are one quote. */
export function useKeep(onKept: (kept: Kept) => void) {
  const client = useQueryClient();
  const made = useRef({ lines: '', id: '' });

  async function keep(what: ToKeep) {
    if (what.kind === 'revision') {
      return (await request(ReviseQuoteDocument, { input: what.input })).reviseQuote;
    }
    const lines = JSON.stringify(what.input);
    // A new id for other lines, the same id for the same lines sent again after a lost answer.
    if (made.current.lines !== lines) made.current = { lines, id: clientId() };
    const input = { ...what.input, clientEventId: made.current.id };
    return (await request(DraftQuoteDocument, { input })).draftQuote;
  }

  return useMutation({
    mutationFn: async ({ what, channel }: Keeping): Promise<Kept> => {
      const kept = await keep(what);
      if (kept.__typename === 'Refusal') throw new NotKept(kept.message);
      if (channel === null) return { quoteId: kept.id, notSent: null };
      const input = { quoteId: kept.id, revision: kept.newest.revision, channel };
      const sent = await request(SendQuoteDocument, { input }).catch(
        (problem: unknown) => problem as Error,
      );
      if (sent instanceof Error) return { quoteId: kept.id, notSent: sent.message };
      const { sendQuote } = sent;
      return {
        quoteId: kept.id,
        notSent: sendQuote.__typename === 'Refusal' ? sendQuote.message : null,
      };
    },
    onSuccess: async (kept) => {
      await client.invalidateQueries();
      onKept(kept);
    },
  });
}

import { useMutation, useQueryClient } from '@tanstack/react-query';
import { useContext } from 'react';
import { request } from '../../graphql/request.ts';
import { clientId } from '../../lib/client-id.ts';
import { SaidNo } from '../quoting/use-answer.ts';
import { type Fact, type FactInputs, type FactKind, sayFact } from './facts.ts';
import { KeptFacts } from './kept-facts.ts';

/**
 * Says a fact; `words` say what it is while it is not sent. At the bench it counts at once, and what the shop says against
 * it comes as a notice; elsewhere its no is the error.
 */
export function useFact<Kind extends FactKind>(does: Kind, onDone?: () => void) {
  const kept = useContext(KeptFacts);
  const queries = useQueryClient();
  return useMutation({
    // Without a network it fails or is kept, and does not wait.
    networkMode: 'always',
    mutationFn: async ({ input, words }: { input: FactInputs[Kind]; words: string }) => {
      const fact = { does, input } as Fact;
      if (kept !== null) return kept.note(fact, words);
      const answer = await sayFact(fact, { clientEventId: clientId() }, (document, variables) =>
        request(document, ...([variables] as never)),
      );
      if (answer.__typename === 'Refusal') throw new SaidNo(answer.message ?? 'It was refused.');
    },
    onSuccess: () => {
      // The form is empty before the page shows what followed: nothing that is typed next is wiped.
      onDone?.();
      if (kept === null) void queries.invalidateQueries();
    },
  });
}

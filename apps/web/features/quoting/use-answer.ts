import { useMutation, useQueryClient } from '@tanstack/react-query';

/** What a mutation of the API answers: what it made, or a refusal with its sentence. */
type Answer = { __typename: string; message?: string };

/** The shop said no; the message is its sentence. */
export class SaidNo extends Error {
  override readonly name = 'SaidNo';
}

/**
 * Does something at the shop. A refusal becomes an error with its sentence, so that what was typed
 * stays and the sentence stands beside it; on a yes every sheet is fetched anew.
 */
export function useDoing<Input>(act: (input: Input) => Promise<Answer>, onDone?: () => void) {
  const client = useQueryClient();
  return useMutation({
    mutationFn: async (input: Input) => {
      const answer = await act(input);
      if (answer.__typename === 'Refusal') throw new SaidNo(answer.message ?? 'It was refused.');
    },
    onSuccess: async () => {
      await client.invalidateQueries();
      onDone?.();
    },
  });
}

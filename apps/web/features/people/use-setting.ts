'use client';

import { useMutation, useQueryClient } from '@tanstack/react-query';

interface Answer {
  __typename: string;
  message?: string;
  field?: string | null;
}

/**
 * One change of the settings: what it is doing, and what was refused, by the field that it is about. After it the sheet
 * is read again, also after a refusal, so that what came first is seen.
 */
export function useSetting<Input, Said extends Answer>(
  change: (input: Input) => Promise<Said>,
  onDone?: (said: Said) => void,
) {
  const queries = useQueryClient();
  const mutation = useMutation({
    mutationFn: change,
    onSuccess: async (said) => {
      await queries.invalidateQueries({ queryKey: ['shopSheet'] });
      void queries.invalidateQueries({ queryKey: ['viewer'] });
      if (said.__typename !== 'Refusal') onDone?.(said);
    },
  });
  const refused = mutation.data?.__typename === 'Refusal' ? mutation.data : null;
  const sentence = refused?.message ?? mutation.error?.message;
  return {
    go: mutation.mutate,
    busy: mutation.isPending,
    reset: mutation.reset,
    sentence,
    /** The refusal where it is about one of these fields. */
    about: (...fields: string[]) =>
      refused?.field && fields.includes(refused.field) ? sentence : undefined,
  };
}

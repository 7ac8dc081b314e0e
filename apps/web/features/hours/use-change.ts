'use client';

import { useMutation, useQueryClient } from '@tanstack/react-query';

interface Answer {
  __typename: string;
  message?: string;
  field?: string | null;
}

/**
 * One change of a sheet of the hours, and what was refused of it. After it the sheet is read again, also after a refusal,
 * so that what came first is seen.
 */
export function useChange<Input, Said extends Answer>(
  queryKey: readonly string[],
  change: (input: Input) => Promise<Said>,
  onDone?: () => void,
) {
  const queries = useQueryClient();
  const mutation = useMutation({
    mutationFn: change,
    onSuccess: async (said) => {
      await queries.invalidateQueries({ queryKey });
      if (said.__typename !== 'Refusal') onDone?.();
    },
  });
  const refused = mutation.data?.__typename === 'Refusal' ? mutation.data : null;
  return {
    go: mutation.mutate,
    busy: mutation.isPending,
    sentence: refused?.message ?? mutation.error?.message,
    field: refused?.field ?? undefined,
  };
}

import { useMutation, useQueryClient } from '@tanstack/react-query';
import type { JudgeNoteInput, LearnNoteInput } from '../../graphql/generated/graphql.ts';
import { request } from '../../graphql/request.ts';
import { JudgeNoteDocument, LearnNoteDocument } from './learned-documents.ts';

type Asked = { learn: LearnNoteInput } | { judge: JudgeNoteInput };

/** Keeps a note, or says whether one holds; the item is asked for anew. */
export function useLearned(onDone: () => void = () => undefined) {
  const queries = useQueryClient();
  return useMutation({
    mutationFn: async (asked: Asked) => {
      const { result } =
        'learn' in asked
          ? await request(LearnNoteDocument, { input: asked.learn })
          : await request(JudgeNoteDocument, { input: asked.judge });
      if (result.__typename === 'Refusal') throw new Error(result.message);
    },
    onSuccess: async () => {
      await queries.invalidateQueries({ queryKey: ['item'] });
      onDone();
    },
  });
}

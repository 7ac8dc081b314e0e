'use client';

import { useQuery } from '@tanstack/react-query';
import { Field, Select } from '../../components/Field.tsx';
import { request } from '../../graphql/request.ts';
import { MayHaveBeenDocument } from './documents.ts';
import { LISTED, needsWords, type OutcomeChosen } from './outcome-chosen.ts';

/** "It turned out to be": the causes listed, the likeliest first, or in words. */
export function OutcomeField({
  findingId,
  onlyNormal = false,
  chosen,
  onChosen,
  wrong,
}: {
  findingId: string;
  /** Before the correction is done only that nothing is wrong can be said. */
  onlyNormal?: boolean;
  chosen: OutcomeChosen;
  onChosen: (chosen: OutcomeChosen) => void;
  wrong?: string | undefined;
}) {
  const asked = useQuery({
    queryKey: ['mayHaveBeen', findingId],
    queryFn: async () => {
      const { node } = await request(MayHaveBeenDocument, { id: findingId });
      return node?.__typename === 'Finding' ? (node.suggestion?.causes ?? []) : [];
    },
  });
  const listed = (asked.data ?? []).filter(
    ({ kind }) => kind === 'normal' || (kind === 'fault' && !onlyNormal),
  );
  const options = [
    { value: '', words: 'not known yet' },
    ...listed.map(({ cause, name, kind }) => ({
      value: `${LISTED}${cause}`,
      words: kind === 'normal' ? `${name} (normal, no action)` : name,
    })),
    ...(onlyNormal ? [] : [{ value: 'other', words: 'Something else, in words' }]),
    { value: 'normal', words: 'Normal, no action, for another reason' },
  ];
  return (
    <>
      <Select
        label="It turned out to be"
        hint="The next suggestions of this shop learn from it."
        options={options}
        value={chosen.choice}
        onChange={(event) => onChosen({ ...chosen, choice: event.currentTarget.value })}
      />
      {needsWords(chosen.choice) ? (
        <Field
          label={chosen.choice === 'normal' ? 'Why it is normal' : 'What it was'}
          maxLength={500}
          wrong={wrong}
          value={chosen.words}
          onChange={(event) => onChosen({ ...chosen, words: event.currentTarget.value })}
        />
      ) : null}
    </>
  );
}

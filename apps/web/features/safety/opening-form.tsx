'use client';

import { ErrorNote } from '../../components/ErrorNote.tsx';
import { Select } from '../../components/Field.tsx';
import { request } from '../../graphql/request.ts';
import { useDoing } from '../quoting/use-answer.ts';
import { SetOpeningDocument, type TaskWithList } from './shop-documents.ts';

/** What is opened first for a task: quoted once for all that falls due behind it. */
export function OpeningForm({
  task,
  tasks,
}: {
  task: TaskWithList;
  tasks: readonly TaskWithList[];
}) {
  const set = useDoing(
    async (openingId: string) =>
      (
        await request(SetOpeningDocument, {
          taskId: task.id,
          openingId: openingId === '' ? null : openingId,
        })
      ).answer,
  );
  return (
    <>
      <Select
        label="Opened first"
        hint="Taken off and put back once for all that falls due behind it; its time is no part of this task’s"
        options={[
          { value: '', words: 'nothing' },
          ...tasks
            .filter(({ id }) => id !== task.id)
            .map(({ id, title, jasc }) => ({ value: id, words: `${jasc} ${title}` })),
        ]}
        value={task.opening?.id ?? ''}
        onChange={(event) => set.mutate(event.currentTarget.value)}
      />
      {set.error === null ? null : <ErrorNote head="Not saved">{set.error.message}</ErrorNote>}
    </>
  );
}

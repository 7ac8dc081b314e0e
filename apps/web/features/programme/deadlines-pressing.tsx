'use client';

import { useQuery } from '@tanstack/react-query';
import { request } from '../../graphql/request.ts';
import { PressingDocument } from './deadline-documents.ts';
import styles from './programme.module.css';

/** How many deadlines press, with the way to all of them; nothing where none does. */
export function DeadlinesPressing() {
  const { data } = useQuery({
    queryKey: ['deadlinesPressing'],
    queryFn: async () => (await request(PressingDocument)).deadlines,
  });
  const late = data?.filter(({ state }) => state === 'late') ?? [];
  const soon = data?.filter(({ state }) => state === 'soon') ?? [];
  if (late.length + soon.length === 0) return null;
  const first = [...late, ...soon][0];
  return (
    <p className={styles.pressing}>
      <span className={styles.state} data-state={late.length > 0 ? 'late' : 'soon'}>
        {late.length > 0 ? `${late.length} late` : `${soon.length} soon`}
      </span>{' '}
      <a href="/records/deadlines">
        Deadlines: {first?.title}
        {late.length + soon.length > 1 ? ` and ${late.length + soon.length - 1} more` : ''}
      </a>
    </p>
  );
}

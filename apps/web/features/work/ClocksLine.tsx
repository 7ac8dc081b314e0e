'use client';

import { useQuery } from '@tanstack/react-query';
import { SheetLink } from '../../components/SheetLink.tsx';
import { request } from '../../graphql/request.ts';
import styles from './forgotten.module.css';
import { ForgottenClocksDocument } from './forgotten-documents.ts';

/** Whose clocks look forgotten, in one line, and the way to them. Nothing where none does. */
export function ClocksLine() {
  const asked = useQuery({
    queryKey: ['forgotten'],
    queryFn: () => request(ForgottenClocksDocument),
  });
  const answer = asked.data?.forgottenClocks;
  const clocks = answer?.__typename === 'ForgottenClocks' ? answer.clocks : [];
  if (clocks.length === 0) return null;
  const names = [...new Set(clocks.map(({ person }) => person.name))].join(', ');
  return (
    <p className={styles.told}>
      {clocks.length === 1 ? 'A clock looks' : `${clocks.length} clocks look`} left running: {names}
      . It counts until somebody says how it was.{' '}
      <SheetLink href="/hours/clocks">See when it ran</SheetLink>
    </p>
  );
}

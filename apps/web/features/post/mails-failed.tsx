'use client';

import { useQuery } from '@tanstack/react-query';
import Link from 'next/link';
import { ErrorNote } from '../../components/ErrorNote.tsx';
import { request } from '../../graphql/request.ts';
import { MailsFailedDocument } from './post-documents.ts';

/** Tells the desk of mail that did not go; nothing where all went. */
export function MailsFailed() {
  const failed = useQuery({
    queryKey: ['mailsFailed'],
    queryFn: async () => (await request(MailsFailedDocument)).mailsFailed,
  });
  const count = failed.data ?? 0;
  if (count === 0) return null;
  return (
    <ErrorNote
      head={count === 1 ? 'A mail did not go' : `${count} mails did not go`}
      action={<Link href="/desk/post">See the Post</Link>}
    >
      The mail server refused {count === 1 ? 'it' : 'them'}, or did not take{' '}
      {count === 1 ? 'it' : 'them'} for five days.
    </ErrorNote>
  );
}

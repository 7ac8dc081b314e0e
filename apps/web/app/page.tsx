'use client';

import { useRouter } from 'next/navigation';
import { useEffect } from 'react';
import { Loading } from '../components/Empty.tsx';
import { ErrorNote } from '../components/ErrorNote.tsx';
import { Sheet } from '../components/Sheet.tsx';
import { homeFor } from '../components/sheets.ts';
import { useViewer } from '../lib/use-viewer.ts';

/** Nothing is here: it leads each person to the sheet that is their home. */
export default function HomePage() {
  const router = useRouter();
  const { data, error } = useViewer();
  useEffect(() => {
    if (data !== undefined) router.replace(homeFor(data.person.roles));
  }, [data, router]);
  return (
    <Sheet title="Fairlead" titleBlock={{ what: 'Looking up your sheet', cells: [] }}>
      {error === null ? (
        <Loading>Looking up your sheet</Loading>
      ) : (
        <ErrorNote head="No sheet yet">{error.message}</ErrorNote>
      )}
    </Sheet>
  );
}

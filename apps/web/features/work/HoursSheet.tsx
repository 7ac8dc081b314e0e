'use client';

import { Loading } from '../../components/Empty.tsx';
import { ErrorNote } from '../../components/ErrorNote.tsx';
import { Sheet } from '../../components/Sheet.tsx';
import { useViewer } from '../../lib/use-viewer.ts';
import { Practice } from './Practice.tsx';

/** A mechanic's own hours, as a record of practice. */
export function HoursSheet() {
  const { data, error } = useViewer();
  return (
    <Sheet
      here="bench"
      reading="bench"
      viewer={data?.person ?? null}
      title="Your hours"
      titleBlock={{
        what: 'Hours worked, under supervision and overseen',
        cells: [{ label: 'Who', value: data?.person.name ?? '' }],
      }}
    >
      {error !== null ? (
        <ErrorNote head="No hours to show">{error.message}</ErrorNote>
      ) : data === undefined ? (
        <Loading>Looking up the hours</Loading>
      ) : (
        <Practice timeZone={data.shop.timeZone} />
      )}
    </Sheet>
  );
}

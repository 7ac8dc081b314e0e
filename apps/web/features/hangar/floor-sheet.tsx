'use client';

import { useQuery, useQueryClient } from '@tanstack/react-query';
import { useState } from 'react';
import { Button } from '../../components/Button.tsx';
import { Empty, Loading } from '../../components/Empty.tsx';
import { ErrorNote } from '../../components/ErrorNote.tsx';
import { Sheet } from '../../components/Sheet.tsx';
import { request } from '../../graphql/request.ts';
import { dayAndTimeText } from '../../lib/figures/dates.ts';
import { useViewer, type Viewer } from '../../lib/use-viewer.ts';
import { EmptyHangar } from './empty-hangar.tsx';
import { FloorChanges } from './floor-changes.tsx';
import { type Floor, FloorDocument } from './floor-documents.ts';
import { FloorNow } from './floor-now.tsx';
import { RevisionTable } from './revision-table.tsx';

/** The manager's home: what stands in the hangar, what it waits for, and how the floor will change. */
export function FloorSheet() {
  const viewer = useViewer();
  const queries = useQueryClient();
  const [row, setRow] = useState<number | null>(null);
  const asked = useQuery({
    queryKey: ['floor'],
    queryFn: async () => (await request(FloorDocument)).floor,
    enabled: viewer.data !== undefined,
    refetchInterval: 60_000,
  });
  const answer = asked.data;
  const floor = answer?.__typename === 'Floor' ? answer : null;
  const drawnRow = row !== null && floor !== null && row < floor.coming.length ? row : null;
  const problem = viewer.error ?? asked.error;
  return (
    <Sheet
      here="floor"
      viewer={viewer.data ? viewer.data.person : null}
      title={floor === null ? 'Floor' : floor.hangar.name}
      notice={problem && floor ? `${problem.message} The drawing is from before.` : undefined}
      titleBlock={titleBlock(floor, viewer.data, drawnRow, setRow)}
    >
      {floor && viewer.data ? (
        <>
          <FloorNow floor={floor} row={drawnRow} viewer={viewer.data} onDraw={setRow} />
          <FloorChanges
            floor={floor}
            viewer={viewer.data}
            onChanged={async (stayId) => {
              await queries.refetchQueries({ queryKey: ['floor'] });
              setRow(stayId === null ? null : rowOf(queries.getQueryData(['floor']), stayId));
            }}
          />
        </>
      ) : problem ? (
        <ErrorNote
          head="No floor to draw"
          action={<Button onClick={() => void queries.refetchQueries()}>Ask again</Button>}
        >
          {problem.message}
        </ErrorNote>
      ) : answer?.__typename === 'Refusal' ? (
        <Empty drawing={<EmptyHangar />}>
          No hangar is laid out for this shop yet. Its walls, door and stands belong here.
        </Empty>
      ) : (
        <Loading>Measuring the hangar</Loading>
      )}
    </Sheet>
  );
}

/** The row in which a stay begins; null where it begins now or after the fourteen days. */
function rowOf(answer: Floor | { __typename: 'Refusal' } | undefined, stayId: string) {
  if (answer?.__typename !== 'Floor') return null;
  const row = answer.coming.findIndex(
    ({ kind, stay }) => stay.id === stayId && kind !== 'departure',
  );
  return row < 0 ? null : row;
}

function titleBlock(
  floor: Floor | null,
  viewer: Viewer | undefined,
  row: number | null,
  onDraw: (row: number | null) => void,
) {
  const change = row === null ? undefined : floor?.coming[row];
  if (floor === null || viewer === undefined) return { what: 'Floor', cells: [] };
  const { timeZone, name } = viewer.shop;
  return {
    what: `${floor.hangar.name} in plan`,
    cells: [
      {
        label: 'The coming fourteen days',
        value: <RevisionTable floor={floor} row={row} timeZone={timeZone} onDraw={onDraw} />,
        span: 'whole' as const,
      },
      { label: 'Shop', value: name },
      {
        label: 'Drawn as of',
        value: dayAndTimeText(change && !change.late ? change.at : floor.asOf, timeZone),
        figures: true,
      },
      { label: 'Revision', value: row === null ? 'now' : String(row + 1), figures: row !== null },
    ],
  };
}

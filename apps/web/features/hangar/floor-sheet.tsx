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
import { CarryStore } from './carry-store.ts';
import { EmptyHangar } from './empty-hangar.tsx';
import { FloorChanges } from './floor-changes.tsx';
import { type Floor, FloorDocument } from './floor-documents.ts';
import { FloorNow } from './floor-now.tsx';
import { drawnBox, MARGIN } from './pose.ts';
import { RevisionTable } from './revision-table.tsx';
import { useCarrying } from './use-carrying.ts';

/** The manager's home: what stands in the hangar, what it waits for, and how the floor will change. */
export function FloorSheet() {
  const viewer = useViewer();
  const queries = useQueryClient();
  const asked = useQuery({
    queryKey: ['floor'],
    queryFn: async () => (await request(FloorDocument)).floor,
    enabled: viewer.data !== undefined,
    refetchInterval: 60_000,
  });
  const answer = asked.data;
  const problem = viewer.error ?? asked.error;
  if (answer?.__typename === 'Floor' && viewer.data !== undefined)
    return <DrawnSheet floor={answer} viewer={viewer.data} problem={problem} />;
  return (
    <Sheet
      here="floor"
      viewer={viewer.data ? viewer.data.person : null}
      title="Floor"
      titleBlock={{ what: 'Floor', cells: [] }}
    >
      {problem ? (
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

function DrawnSheet({
  floor,
  viewer,
  problem,
}: {
  floor: Floor;
  viewer: Viewer;
  problem: Error | null;
}) {
  const queries = useQueryClient();
  const [chosen, setRow] = useState<number | null>(null);
  const [store] = useState(() => new CarryStore());
  const carrying = useCarrying(store, floor, {
    margin: MARGIN,
    boxWidth: drawnBox(floor.hangar).width,
  });
  const row = chosen !== null && chosen < floor.coming.length ? chosen : null;
  const change = row === null ? undefined : floor.coming[row];
  const { timeZone, name } = viewer.shop;
  const plans = viewer.person.roles.some((role) => role !== 'mechanic');
  return (
    <Sheet
      here="floor"
      viewer={viewer.person}
      title={floor.hangar.name}
      notice={problem ? `${problem.message} The drawing is from before.` : undefined}
      titleBlock={{
        what: `${floor.hangar.name} in plan`,
        cells: [
          {
            label: 'The coming fourteen days',
            value: (
              <RevisionTable
                floor={floor}
                row={row}
                timeZone={timeZone}
                carrying={plans ? carrying : null}
                onDraw={setRow}
              />
            ),
            span: 'whole',
          },
          { label: 'Shop', value: name },
          {
            label: 'Drawn as of',
            value: dayAndTimeText(change && !change.late ? change.at : floor.asOf, timeZone),
            figures: true,
          },
          {
            label: 'Revision',
            value: row === null ? 'now' : String(row + 1),
            figures: row !== null,
          },
        ],
      }}
    >
      <FloorNow
        floor={floor}
        row={row}
        viewer={viewer}
        store={store}
        carrying={carrying}
        onDraw={setRow}
      >
        <FloorChanges
          floor={floor}
          row={row}
          viewer={viewer}
          store={store}
          onChanged={async (stayId) => {
            await queries.refetchQueries({ queryKey: ['floor'] });
            setRow(stayId === null ? null : rowOf(queries.getQueryData(['floor']), stayId));
          }}
        />
      </FloorNow>
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

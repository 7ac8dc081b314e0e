'use client';

import { useQuery } from '@tanstack/react-query';
import { useState } from 'react';
import { Button } from '../../components/Button.tsx';
import { ErrorNote } from '../../components/ErrorNote.tsx';
import { request } from '../../graphql/request.ts';
import type { Viewer } from '../../lib/use-viewer.ts';
import styles from './floor.module.css';
import { type Floor, FloorChoicesDocument } from './floor-documents.ts';
import { MoveForm } from './move-form.tsx';
import { PlanForm } from './plan-form.tsx';

/** The two ways to change the drawing: what will be, and what has just been done. */
export function FloorChanges({
  floor,
  viewer,
  onChanged,
}: {
  floor: Floor;
  viewer: Viewer;
  /** With the stay that was planned; null after a move. */
  onChanged: (stayId: string | null) => Promise<void>;
}) {
  const choices = useQuery({
    queryKey: ['floorChoices'],
    queryFn: () => request(FloorChoicesDocument),
  });
  const [open, setOpen] = useState<'plan' | 'move' | null>(null);
  const plans = viewer.person.roles.some((role) => role !== 'mechanic');
  if (choices.error)
    return <ErrorNote head="Nothing to plan with">{choices.error.message}</ErrorNote>;
  if (choices.data === undefined) return null;
  const way = (which: 'plan' | 'move', words: string) => (
    <Button aria-expanded={open === which} onClick={() => setOpen(open === which ? null : which)}>
      {words}
    </Button>
  );
  return (
    <div className={styles.changes} data-screen-only>
      <div className={styles.ways}>
        {plans ? way('plan', 'Plan a stay') : null}
        {way('move', 'An aircraft was moved')}
      </div>
      {plans ? (
        <PlanForm
          floor={floor}
          choices={choices.data}
          timeZone={viewer.shop.timeZone}
          hidden={open !== 'plan'}
          onPlanned={(stayId) => void onChanged(stayId)}
        />
      ) : null}
      <MoveForm
        floor={floor}
        choices={choices.data}
        hidden={open !== 'move'}
        onMoved={() => void onChanged(null)}
      />
    </div>
  );
}

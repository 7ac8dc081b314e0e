'use client';

import { useQuery, useQueryClient } from '@tanstack/react-query';
import { useEffect, useRef, useState } from 'react';
import { Button } from '../../components/Button.tsx';
import { ErrorNote } from '../../components/ErrorNote.tsx';
import { request } from '../../graphql/request.ts';
import type { Viewer } from '../../lib/use-viewer.ts';
import type { CarryStore } from './carry-store.ts';
import styles from './floor.module.css';
import { type Floor, FloorChoicesDocument } from './floor-documents.ts';
import { PlaceForm } from './place-form.tsx';
import type { Wish } from './save-place.ts';
import { emptyWish, wishOf } from './start-wish.ts';

/** The ways to change the drawing by form; what was let go on the drawing is confirmed in the same one. */
export function FloorChanges({
  floor,
  row,
  viewer,
  store,
  onChanged,
}: {
  floor: Floor;
  row: number | null;
  viewer: Viewer;
  store: CarryStore;
  /** With the stay that was planned; null after a move. Answers when the floor is drawn anew. */
  onChanged: (stayId: string | null) => Promise<void>;
}) {
  const queries = useQueryClient();
  const choices = useQuery({
    queryKey: ['floorChoices'],
    queryFn: () => request(FloorChoicesDocument),
  });
  const [form, setForm] = useState<{ opened: number; start: Wish } | null>(null);
  const [done, setDone] = useState('');
  const plans = viewer.person.roles.some((role) => role !== 'mechanic');
  const drawn = { floor, row, timeZone: viewer.shop.timeZone, plans };
  const open = (start: Wish) => {
    setDone('');
    setForm((before) => ({ opened: (before?.opened ?? 0) + 1, start }));
  };

  const latest = useRef(drawn);
  useEffect(() => {
    latest.current = drawn;
  });
  useEffect(
    () =>
      store.subscribe(() => {
        const state = store.state();
        if (state.step === 'carried') setForm(null);
        if (state.step === 'put') open(wishOf(state, latest.current));
      }),
    [store],
  );

  if (choices.error)
    return <ErrorNote head="Nothing to plan with">{choices.error.message}</ErrorNote>;
  if (choices.data === undefined) return null;
  const close = () => {
    setForm(null);
    store.forget();
  };
  return (
    <div className={styles.changes} data-screen-only>
      {form === null ? (
        <div className={styles.ways}>
          {plans ? (
            <Button onClick={() => open(emptyWish('planned', drawn))}>Plan a stay</Button>
          ) : null}
          <Button onClick={() => open(emptyWish('now', drawn))}>An aircraft was moved</Button>
        </div>
      ) : (
        <PlaceForm
          key={form.opened}
          floor={floor}
          choices={choices.data}
          start={form.start}
          plans={plans}
          timeZone={viewer.shop.timeZone}
          onDone={({ words, plannedId }) => {
            close();
            setDone(words);
            void queries.invalidateQueries({ queryKey: ['floorChoices'] });
            void onChanged(plannedId);
          }}
          onMoved={async (aircraftId) => {
            store.forget();
            const [fresh] = await Promise.all([
              queries.fetchQuery({
                queryKey: ['floorChoices'],
                queryFn: () => request(FloorChoicesDocument),
                staleTime: 0,
              }),
              onChanged(null),
            ]);
            const known = fresh.aircraft.edges.find(({ node }) => node.id === aircraftId);
            return known?.node.floorVersion ?? null;
          }}
          onClose={close}
        />
      )}
      <p className={styles.done} role="status" aria-label="Saved">
        {done}
      </p>
    </div>
  );
}

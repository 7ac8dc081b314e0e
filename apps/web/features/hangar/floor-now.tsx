'use client';

import { type ReactNode, useCallback, useEffect, useMemo } from 'react';
import { Button } from '../../components/Button.tsx';
import { Hatch } from '../../components/Hatch.tsx';
import { dayAndTimeText } from '../../lib/figures/dates.ts';
import type { Viewer } from '../../lib/use-viewer.ts';
import type { CarryStore } from './carry-store.ts';
import { CarryWords } from './carry-words.tsx';
import styles from './floor.module.css';
import type { Conflict, Floor } from './floor-documents.ts';
import { FloorDrawing } from './floor-drawing.tsx';
import { noteOf } from './floor-words.ts';
import { Occupancy } from './occupancy.tsx';
import { changeWords } from './revision-table.tsx';
import { conflictsAt, momentOf, type Standing, standingAt } from './standing.ts';
import type { Carrying } from './use-carrying.ts';

/** The drawing at one moment, the way to the next one, and what is wrong with it. */
export function FloorNow({
  floor,
  row,
  viewer: { person, shop },
  store,
  carrying,
  onDraw,
  children,
}: {
  floor: Floor;
  row: number | null;
  viewer: Viewer;
  store: CarryStore;
  carrying: Carrying;
  onDraw: (row: number | null) => void;
  /** What changes the drawing, beneath it. */
  children: ReactNode;
}) {
  const at = momentOf(floor, row);
  const drawn = useMemo(() => {
    const stands = floor.stands.map(({ id }) => id);
    const place = (each: Standing) => stands.indexOf(each.stay.stand.id);
    return standingAt(floor, row)
      .toSorted((one, other) => place(one) - place(other))
      .map((each, index) => ({ ...each, note: noteOf(each, floor, at, shop), number: index + 1 }));
  }, [floor, row, at, shop]);
  useEffect(
    () => store.show({ floor, standing: drawn, timeZone: shop.timeZone }),
    [store, floor, drawn, shop.timeZone],
  );
  const conflicts = conflictsAt(floor.conflicts, at);
  const tight = useMemo(() => {
    const involved = new Set(conflictsAt(floor.conflicts, at).flatMap(({ stayIds }) => stayIds));
    return new Set(
      drawn.filter(({ stay }) => involved.has(stay.id)).map(({ stay }) => stay.stand.id),
    );
  }, [floor, at, drawn]);
  const change = row === null ? undefined : floor.coming[row];
  const atDesk = person.roles.some((role) => role === 'front_desk' || role === 'manager');
  const plans = person.roles.some((role) => role !== 'mechanic');
  const orderHref = useCallback(
    (id: string) => (atDesk ? `/desk/orders/${encodeURIComponent(id)}` : null),
    [atDesk],
  );
  return (
    <section className={styles.now} aria-label="The hangar in plan">
      <div className={styles.moment}>
        <p role="status" aria-label="Drawn">
          {change === undefined ? (
            <>
              As it stands now, <b>{dayAndTimeText(at, shop.timeZone)}</b>
            </>
          ) : (
            <>
              As planned for <b>{dayAndTimeText(change.at, shop.timeZone)}</b>:{' '}
              {changeWords(change)}
            </>
          )}
        </p>
        <div className={styles.step} data-screen-only>
          <Button
            disabled={row === null}
            onClick={() => onDraw(row === null || row === 0 ? null : row - 1)}
          >
            Change before
          </Button>
          <Button
            disabled={(row ?? -1) + 1 >= floor.coming.length}
            onClick={() => onDraw((row ?? -1) + 1)}
          >
            Next change
          </Button>
        </div>
      </div>
      <FloorDrawing
        floor={floor}
        drawn={drawn}
        now={row === null || change?.late === true}
        row={row === null ? null : row + 1}
        tight={tight}
        label={spoken(floor, drawn.length)}
        store={store}
        carrying={carrying}
        takes={row === null || plans}
        orderHref={orderHref}
      />
      <CarryWords store={store} />
      {children}
      {drawn.length === 0 ? <p className={styles.bare}>Nothing stands on the floor.</p> : null}
      <Wrong head={row === null ? 'Cannot be now' : 'Cannot be then'} conflicts={conflicts} />
      {row === null ? (
        <Wrong
          head="Planned, and cannot be"
          conflicts={floor.conflicts.filter((each) => !conflicts.includes(each))}
        />
      ) : null}
      <div className={styles.foot}>
        <dl className={styles.shares}>
          <Occupancy words="Taken today" share={floor.occupancyToday} />
          <Occupancy words="These fourteen days" share={floor.occupancyFortnight} />
        </dl>
        <ul className={styles.key} aria-label="Hatches">
          {(['planned', 'in_work', 'waiting', 'ready_to_sign', 'released'] as const).map(
            (state) => (
              <li key={state}>
                <Hatch state={state} />
              </li>
            ),
          )}
        </ul>
      </div>
    </section>
  );
}

function Wrong({ head, conflicts }: { head: string; conflicts: readonly Conflict[] }) {
  if (conflicts.length === 0) return null;
  return (
    <div className={styles.conflicts}>
      <h2>{head}</h2>
      <ul>
        {conflicts.map((conflict) => (
          <li key={`${conflict.kind} ${conflict.sentence}`}>
            {conflict.sentence.replace(/([^.])$/, '$1.')}
          </li>
        ))}
      </ul>
    </div>
  );
}

function spoken({ hangar, stands }: Floor, count: number): string {
  const size = `${hangar.widthMm / 1000} by ${hangar.depthMm / 1000} metres`;
  return `${hangar.name} in plan, ${size}, ${stands.length} stands, ${count} aircraft: see the list.`;
}

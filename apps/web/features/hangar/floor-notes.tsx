import type { CSSProperties } from 'react';
import { Balloon } from '../../components/Balloon.tsx';
import styles from './floor.module.css';
import type { PlacedNote } from './leaders.ts';
import type { Place } from './pose.ts';

/** A few lines of words for each aircraft: at the end of its leader, or in a list under its number. */
export function FloorNotes({
  places,
  placed,
  top,
  orderHref,
}: {
  places: readonly Place[];
  placed: readonly PlacedNote[] | null;
  top: (y: number) => string;
  orderHref: (orderId: string) => string | null;
}) {
  return (
    <ol className={styles.notes}>
      {places.map((each) => {
        const at = placed?.find(({ id }) => id === each.id);
        const { registration, first, second, ahead, beyond } = each.note;
        const href = each.stay.order === null ? null : orderHref(each.stay.order.id);
        return (
          <li
            key={each.id}
            id={`note-${each.number}`}
            className={styles.note}
            data-side={at?.side}
            style={at === undefined ? undefined : ({ '--top': top(at.top) } as CSSProperties)}
          >
            <span className={styles.number}>
              <Balloon number={each.number} />
            </span>
            <p>
              <span>
                <b>{href === null ? registration : <a href={href}>{registration}</a>}</b> {first}
              </span>
              <span className={styles.second}>{second}</span>
              {ahead === null ? null : <span className={styles.ahead}>{ahead}</span>}
              {beyond === null ? null : <span className={styles.beyond}>{beyond}</span>}
            </p>
          </li>
        );
      })}
    </ol>
  );
}

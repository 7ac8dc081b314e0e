'use client';

import { Button } from '../../components/Button.tsx';
import { Figure } from '../../components/Figure.tsx';
import { PartsList } from '../../components/PartsList.tsx';
import styles from './stores.module.css';
import type { OrderWithParts } from './stores-documents.ts';

type Held = OrderWithParts['items'][number]['parts'][number];

/** What an item holds, and what can come back from it. */
export interface PartOut {
  itemId: string;
  /** Such as "QQ-117, item 12, Replace drive belts". */
  item: string;
  lotId: string;
  /** Such as "Drive belt, batch TB-1". */
  part: string;
  unit: string;
  quantity: string;
}

const outOf = (
  { aircraft }: OrderWithParts,
  { id, position, title }: OrderWithParts['items'][number],
  { quantity, lot }: Held,
): PartOut => ({
  itemId: id,
  item: `${aircraft.registration}, item ${position}, ${title}`,
  lotId: lot.id,
  part: `${lot.part.title}, batch ${lot.batch}`,
  unit: lot.part.unit,
  quantity,
});

/** Parts that are on the work of aircraft that are here. */
export function OutList({
  orders,
  onReturn,
}: {
  orders: readonly OrderWithParts[];
  onReturn: (out: PartOut) => void;
}) {
  const rows = orders.flatMap((order) =>
    order.items.flatMap((item) => item.parts.map((held) => ({ order, item, held }))),
  );
  if (rows.length === 0) {
    return (
      <section>
        <h2 className={styles.caption}>Out on the work</h2>
        <p className={styles.second}>No part is out on the work of an aircraft that is here.</p>
      </section>
    );
  }
  return (
    <PartsList
      caption="Out on the work"
      columns={[
        { key: 'part', head: 'Part' },
        { key: 'work', head: 'On which work' },
        { key: 'out', head: 'Out', kind: 'figure' },
      ]}
      rows={rows.map(({ order, item, held }) => {
        const out = outOf(order, item, held);
        return {
          key: `${item.id}-${held.lot.id}`,
          cells: {
            part: held.lot.part.title,
            work: (
              <>
                <b className={styles.place}>{order.aircraft.registration}</b>{' '}
                <span className={styles.figures}>{item.position}</span> {item.title}
              </>
            ),
            out: (
              <span className={styles.left}>
                <Figure text={held.quantity} unit={held.lot.part.unit} />
                <span data-screen-only="">
                  <Button
                    aria-label={`Return ${out.part} from ${out.item}`}
                    onClick={() => onReturn(out)}
                  >
                    Return
                  </Button>
                </span>
              </span>
            ),
          },
          note: `batch ${held.lot.batch}${held.lot.bin === '' ? '' : ` · goes back to ${held.lot.bin}`}`,
        };
      })}
    />
  );
}

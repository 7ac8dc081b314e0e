'use client';

import { type ReactNode, useState } from 'react';
import { ErrorNote } from '../../components/ErrorNote.tsx';
import { RecordCompression } from './compression-form.tsx';
import { NotSent } from './not-sent.tsx';
import { OpenList } from './open-list.tsx';
import styles from './safety.module.css';
import { Compressions, Torques } from './tightened.tsx';
import { ToolCounts } from './tool-counts.tsx';
import { RecordTorque } from './torque-part.tsx';
import { useItemCare, useOpenOnOrder } from './use-open.ts';

/** What is opened, counted, tightened and measured at this item. */
export function ItemCare({
  itemId,
  orderId,
  timeZone,
  open,
  inspects,
}: {
  itemId: string;
  timeZone: string;
  orderId: string;
  /** Whether it is still worked at. */
  open: boolean;
  /** An inspector or the manager. */
  inspects: boolean;
}) {
  const care = useItemCare(itemId);
  const onOrder = useOpenOnOrder(orderId);
  const [item, order] = [care.data, onOrder.data];
  const problem = care.error ?? onOrder.error;
  if (!order)
    return problem ? <ErrorNote head="Not all of it is here">{problem.message}</ErrorNote> : null;
  // An answer that is null: there is none; none yet: it was never asked from this device.
  const notHere = care.isPending ? null : (
    <p className={styles.second}>What was recorded before is not on this device.</p>
  );
  const here = order.state === 'here' || order.state === 'ready_to_sign';
  const mine = order.openLines.filter(
    (line) => line.item?.id === itemId && line.state === 'open',
  ).length;
  const out = order.toolCounts.some((count) => count.itemId === itemId && !count.agrees);
  return (
    <section className={styles.part} aria-label="Opened, counted, tightened">
      <Fold words={`Opened and removed${mine > 0 ? `: ${mine} open` : ''}`} open={mine > 0}>
        <OpenList order={order} itemId={itemId} works={here} timeZone={timeZone} />
      </Fold>
      <Fold words={`Tools and rags${out ? ': counted out' : ''}`} open={out}>
        <ToolCounts
          order={order}
          itemId={itemId}
          works={here}
          mayAccount={here && inspects}
          timeZone={timeZone}
        />
      </Fold>
      <Fold words={`Torque${item?.torques.length ? `: ${item.torques.length} recorded` : ''}`}>
        {item ? <Torques item={item} timeZone={timeZone} /> : notHere}
        <NotSent kinds={['torque']} about={itemId} />
        {here && open ? <RecordTorque itemId={itemId} /> : null}
      </Fold>
      <Fold
        words={`Compression${item?.compressions.length ? `: ${item.compressions.length} recorded` : ''}`}
      >
        {item ? <Compressions item={item} timeZone={timeZone} /> : notHere}
        <NotSent kinds={['compression']} about={itemId} />
        {here && open ? <RecordCompression itemId={itemId} /> : null}
      </Fold>
    </section>
  );
}

function Fold({
  words,
  open = false,
  children,
}: {
  words: string;
  open?: boolean;
  children: ReactNode;
}) {
  // As it was when it was drawn: what closes its last line does not fold it away under the finger.
  const [opens] = useState(open);
  return (
    <details open={opens}>
      <summary className={styles.summary}>{words}</summary>
      <div className={styles.part}>{children}</div>
    </details>
  );
}

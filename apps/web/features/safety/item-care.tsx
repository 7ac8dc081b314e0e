'use client';

import { useQuery } from '@tanstack/react-query';
import { type ReactNode, useState } from 'react';
import { ErrorNote } from '../../components/ErrorNote.tsx';
import { compressionsNoted, torquesNoted, withNoted } from './care-now.ts';
import { RecordCompression } from './compression-form.tsx';
import { countsNow } from './counts-now.ts';
import { useUnsentFacts } from './kept-facts.ts';
import { OpenList } from './open-list.tsx';
import { linesNow } from './open-now.ts';
import styles from './safety.module.css';
import { Compressions, Torques } from './tightened.tsx';
import { ToolCounts } from './tool-counts.tsx';
import { RecordTorque } from './torque-part.tsx';
import { torqueChoicesAsked, useItemCare, useOpenOnOrder } from './use-open.ts';

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
  const tools = useQuery(torqueChoicesAsked).data?.tools ?? [];
  const facts = useUnsentFacts();
  const [item, order] = [care.data, onOrder.data];
  const problem = care.error ?? onOrder.error;
  if (!order)
    return problem ? <ErrorNote head="Not all of it is here">{problem.message}</ErrorNote> : null;
  // An answer that is null: there is none; none yet: it was never asked from this device.
  const notHere = care.isPending ? null : (
    <p className={styles.second}>What was recorded before is not on this device.</p>
  );
  const here = order.state === 'here' || order.state === 'ready_to_sign';
  const mine = linesNow(orderId, order.openLines, facts).filter(
    (line) => line.item?.id === itemId && line.state === 'open',
  ).length;
  const out = countsNow(orderId, order.toolCounts, facts).some(
    (count) => count.itemId === itemId && !count.agrees,
  );
  const torques = withNoted(item?.torques ?? [], torquesNoted(itemId, facts, tools));
  const compressions = withNoted(item?.compressions ?? [], compressionsNoted(itemId, facts));
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
      <Fold words={`Torque${recorded(torques)}`}>
        {item ? null : notHere}
        <Torques torques={torques} timeZone={timeZone} />
        {here && open ? <RecordTorque itemId={itemId} /> : null}
      </Fold>
      <Fold words={`Compression${recorded(compressions)}`}>
        {item ? null : notHere}
        <Compressions compressions={compressions} timeZone={timeZone} />
        {here && open ? <RecordCompression itemId={itemId} /> : null}
      </Fold>
    </section>
  );
}

const recorded = ({ length }: readonly unknown[]) => (length === 0 ? '' : `: ${length} recorded`);

function Fold({
  words,
  open = false,
  children,
}: {
  words: string;
  open?: boolean;
  children: ReactNode;
}) {
  // What closes its last line does not fold it away under the finger; what this device kept may come after the first drawing.
  const [opens, setOpens] = useState(open);
  if (open && !opens) setOpens(true);
  return (
    <details open={opens}>
      <summary className={styles.summary}>{words}</summary>
      <div className={styles.part}>{children}</div>
    </details>
  );
}

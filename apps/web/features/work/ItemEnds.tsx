'use client';

import { clientId } from '../../lib/client-id.ts';
import { LeaveWords } from '../safety/hand-overs.tsx';
import { unfinishedWords } from '../safety/unfinished.ts';
import type { Afters } from './AfterPhotos.tsx';
import styles from './bench.module.css';
import { FinishForm } from './FinishForm.tsx';
import type { ItemOnSheet } from './item-documents.ts';
import type { ItemNow } from './items-now.ts';
import { outbox } from './outbox.ts';
import { PutOffItem } from './PutOffItem.tsx';
import type { ItemChange, Pending } from './pending.ts';
import type { Bench } from './use-bench.ts';
import { goTo } from './view.tsx';
import { WaitForm } from './WaitForm.tsx';

/** How work at an item ends for now or for good: left to the next one, done, waiting, or not on this visit. */
export function ItemEnds({
  bench,
  item,
  personId,
  refused,
  onChange,
}: {
  bench: Bench;
  item: ItemNow<ItemOnSheet>;
  personId: string;
  /** What was said of it before and not taken: it is there to go on from. */
  refused: Pending | undefined;
  /** Says it, and leaves the sheet. */
  onChange: (said: ItemChange) => void;
}) {
  const runsHere = bench.running?.itemId === item.id;
  const roles = bench.viewer.data?.person.roles ?? [];
  return (
    <>
      <details>
        <summary className={styles.summary}>Stop here, and leave words for the next one</summary>
        <LeaveWords
          press={runsHere ? 'Stop the clock: I stop here' : 'I stop here'}
          onLeave={(words) => {
            void bench.leave(item, words);
            goTo({ kind: 'list' });
          }}
        />
      </details>
      <section className={styles.form} aria-labelledby="done" data-screen-only="">
        <h2 id="done">It is done</h2>
        <FinishForm
          item={item}
          runsHere={runsHere}
          refused={
            refused?.kind === 'change' && refused.does === 'finish' ? refused.input : undefined
          }
          unfinished={unfinishedWords(item)}
          onFinish={(input, outcome, afters) => {
            if (item.finding !== null)
              void outbox.add(...photosAfter(item.finding, afters, personId));
            onChange({ does: 'finish', input, outcome });
          }}
        />
      </section>
      <details>
        <summary className={styles.summary}>It has to wait</summary>
        <WaitForm
          itemId={item.id}
          runsHere={runsHere}
          onWait={(input) => onChange({ does: 'wait', input })}
        />
      </details>
      <details>
        <summary className={styles.summary}>It is not done on this visit</summary>
        {roles.some((role) => role !== 'mechanic') ? (
          <PutOffItem
            critical={item.critical}
            runsHere={runsHere}
            onPutOff={(reason) => onChange({ does: 'putOff', input: { itemId: item.id, reason } })}
          />
        ) : (
          <p>An inspector or the front desk puts it off: tell them why.</p>
        )}
      </details>
    </>
  );
}

/** Photos of after a correction, on their way to the finding that it corrects. */
const photosAfter = (
  { title, clientEventId }: NonNullable<ItemOnSheet['finding']>,
  afters: Afters,
  personId: string,
): Pending[] =>
  Object.entries(afters).map(([before, photo], index) => ({
    kind: 'photo',
    id: clientId(),
    personId,
    madeAt: Date.now() + index,
    words: `Photo of after: ${title}`,
    finding: clientEventId,
    before,
    photo,
  }));

'use client';

import { useQueryClient } from '@tanstack/react-query';
import { Suspense } from 'react';
import { Button } from '../../components/Button.tsx';
import { Empty } from '../../components/Empty.tsx';
import { More } from '../../components/More.tsx';
import { SheetLink } from '../../components/SheetLink.tsx';
import { clockText } from '../../lib/figures/hours.ts';
import { unclosedNow } from '../safety/counts-now.ts';
import { useUnsentFacts } from '../safety/kept-facts.ts';
import type { OpenOrder } from '../safety/order-documents.ts';
import { BenchFrame } from './BenchFrame.tsx';
import styles from './bench.module.css';
import { CostOfAgreed } from './CostOfAgreed.tsx';
import { ItemRow } from './ItemRow.tsx';
import { MyForgottenClock } from './late-parts.tsx';
import { PhotosOnTheWay } from './late-views.tsx';
import { waits } from './pending.ts';
import { RunningClock } from './RunningClock.tsx';
import { ThumbBar } from './ThumbBar.tsx';
import { type Bench, type ItemHere, useBench, useOutbox } from './use-bench.ts';
import { useStart } from './use-start.tsx';
import { ViewLink } from './view.tsx';

/** What a mechanic has before them: what runs, what there is to do, and the two things at the thumb. */
export function BenchSheet() {
  const bench = useBench();
  const { press, askSupervisor, asking } = useStart(bench);
  return (
    <BenchFrame
      bench={bench}
      title="Bench"
      titleHidden
      what="Work on the aircraft that are here"
      clock={null}
    >
      {({ personId, currency, timeZone }) => (
        <div className={styles.bench}>
          {bench.forgotten.length === 0 ? null : (
            <Suspense>
              {bench.forgotten.map((clock) => (
                <MyForgottenClock
                  key={clock.startId}
                  clock={clock}
                  timeZone={timeZone}
                  onAnswer={(said) => void bench.answer(clock, said)}
                />
              ))}
            </Suspense>
          )}
          <RunningPanel bench={bench} currency={currency} onSupervisor={askSupervisor} />
          <PhotosHere personId={personId} />
          {bench.items.length === 0 ? (
            <Empty draws="list">No aircraft is here with work to do.</Empty>
          ) : (
            byOrder(bench.items).map(({ order, toDo, done }) => {
              const rows = (items: readonly ItemHere[]) => (
                <ul>
                  {items.map((item) => (
                    <ItemRow
                      key={item.id}
                      item={item}
                      personId={personId}
                      running={bench.running?.itemId === item.id}
                      onPress={() => press(item)}
                    />
                  ))}
                </ul>
              );
              return (
                <section key={order.id} className={styles.order}>
                  <h2>
                    {order.aircraft.registration} <span>{order.title}</span>
                  </h2>
                  <ViewLink className={styles.care} view={{ kind: 'order', id: order.id }}>
                    <Unclosed order={order} />
                    <span className="spoken"> of {order.aircraft.registration}</span>
                  </ViewLink>
                  {toDo.length === 0 ? (
                    <p className={styles.second}>Everything is done; an inspector looks next.</p>
                  ) : (
                    rows(toDo)
                  )}
                  {done.length === 0 ? null : (
                    <More words={`${done.length} done, not inspected`}>{rows(done)}</More>
                  )}
                </section>
              );
            })
          )}
          <p className={styles.ways}>
            <SheetLink href="/bench/hours">Your hours, and under whom</SheetLink>
            <SheetLink href="/bench/pin">Your PIN for the shared device</SheetLink>
          </p>
          {asking}
          <ThumbBar
            item={bench.runningItem}
            onStop={() => {
              if (bench.runningItem) void bench.stop(bench.runningItem);
            }}
          />
        </div>
      )}
    </BenchFrame>
  );
}

/** How much is open on an aircraft, with what this device has noted of it. */
function Unclosed({ order: { id, unclosedCount } }: { order: ItemHere['order'] }) {
  const facts = useUnsentFacts();
  const known = useQueryClient().getQueryData<OpenOrder | null>(['openOnOrder', id]);
  const order = known ?? { id, openLines: [], toolCounts: [] };
  const count = unclosedCount + unclosedNow(order, facts) - unclosedNow(order, []);
  return count <= 0 ? 'Panels, parts, tools, leaks' : `${count} open: panels, parts, tools`;
}

function PhotosHere({ personId }: { personId: string }) {
  const { pending } = useOutbox();
  if (!pending.some((entry) => entry.kind === 'photo' && waits(entry))) return null;
  return (
    <Suspense>
      <PhotosOnTheWay personId={personId} />
    </Suspense>
  );
}

function RunningPanel({
  bench,
  currency,
  onSupervisor,
}: {
  bench: Bench;
  currency: string;
  onSupervisor: () => void;
}) {
  const { running, runningItem: item, supervisor, supervisors } = bench;
  const under =
    !bench.supervised || supervisor === undefined ? null : (
      <p className={styles.under}>
        {supervisor === null
          ? 'Under nobody’s supervision'
          : `Under ${supervisors.find(({ id }) => id === supervisor)?.name ?? ''}`}
        <Button kind="plain" onClick={onSupervisor}>
          Change<span className="spoken"> who supervises</span>
        </Button>
      </p>
    );
  if (running === null || item === null) {
    return (
      <section className={styles.running} aria-label="Your clock">
        <p className={styles.runningTitle}>Your clock is stopped</p>
        <p className={styles.second}>Touch an item to start on it.</p>
        {under}
      </section>
    );
  }
  return (
    <section className={styles.running} aria-label="Your clock" data-runs="">
      <p className={styles.second}>
        {item.order.aircraft.registration}, order {item.order.number}
      </p>
      <p className={styles.runningTitle}>{item.title}</p>
      <RunningClock key={running.startedAt} since={running.startedAt} />
      {item.secondsWorked > 0 ? (
        <p className={styles.second}>
          <span className={styles.figures}>{clockText(item.secondsWorked)}</span> h on it in all
        </p>
      ) : null}
      {under}
      <CostOfAgreed order={{ ...item.order, costAhead: bench.costAhead }} currency={currency} />
    </section>
  );
}

/** Items under their orders; what is done apart, because nobody starts it. */
function byOrder(items: readonly ItemHere[]) {
  const orders = new Map<string, { order: ItemHere['order']; items: ItemHere[] }>();
  for (const item of items) {
    const known = orders.get(item.order.id) ?? { order: item.order, items: [] };
    known.items.push(item);
    orders.set(item.order.id, known);
  }
  return [...orders.values()].map(({ order, items: all }) => ({
    order,
    toDo: all.filter(({ state }) => state !== 'done'),
    done: all.filter(({ state }) => state === 'done'),
  }));
}

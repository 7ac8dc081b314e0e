'use client';

import { Empty } from '../../components/Empty.tsx';
import { More } from '../../components/More.tsx';
import { clockText } from '../../lib/figures/hours.ts';
import { BenchFrame } from './BenchFrame.tsx';
import styles from './bench.module.css';
import type { BenchItem } from './bench-documents.ts';
import { CostOfAgreed } from './CostOfAgreed.tsx';
import { ItemRow } from './ItemRow.tsx';
import { PhotosOnTheWay } from './PhotosOnTheWay.tsx';
import { RunningClock } from './RunningClock.tsx';
import { ThumbBar } from './ThumbBar.tsx';
import { type Bench, useBench } from './use-bench.ts';
import { useStart } from './use-start.tsx';

/** What a mechanic has before them: what runs, what there is to do, and the two things at the thumb. */
export function BenchSheet() {
  const bench = useBench();
  const { press, asking } = useStart(bench);
  return (
    <BenchFrame bench={bench} title="Bench" titleHidden what="Work on the aircraft that are here">
      {({ personId, currency }) => (
        <div className={styles.bench}>
          <RunningPanel bench={bench} currency={currency} />
          <PhotosOnTheWay personId={personId} />
          {bench.items.length === 0 ? (
            <Empty draws="list">No aircraft is here with work to do.</Empty>
          ) : (
            byOrder(bench.items).map(({ order, toDo, done }) => {
              const rows = (items: readonly BenchItem[]) => (
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

function RunningPanel({ bench, currency }: { bench: Bench; currency: string }) {
  const { running, runningItem: item } = bench;
  if (running === null || item === null) {
    return (
      <section className={styles.running} aria-label="Your clock">
        <p className={styles.runningTitle}>Your clock is stopped</p>
        <p className={styles.second}>Touch an item to start on it.</p>
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
      <CostOfAgreed order={item.order} currency={currency} />
    </section>
  );
}

/** Items under their orders; what is done apart, because nobody starts it. */
function byOrder(items: readonly BenchItem[]) {
  const orders = new Map<string, { order: BenchItem['order']; items: BenchItem[] }>();
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

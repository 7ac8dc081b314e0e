'use client';

import { MayBe } from '../diagnosis/may-be.tsx';
import { useMayBe } from '../diagnosis/use-may-be.ts';
import { BenchFrame } from './BenchFrame.tsx';
import styles from './bench.module.css';
import { useBench } from './use-bench.ts';
import { ViewLink } from './view.tsx';

/** One finding on the bench: what it may be, what to check next, and what it turned out to be. */
export function FindingSheet({ id }: { id: string }) {
  const bench = useBench();
  const { data: finding } = useMayBe(id);
  const viewer = bench.viewer.data;
  return (
    <BenchFrame
      bench={bench}
      title={finding?.title ?? 'Finding'}
      what="What it may be"
      cells={
        finding
          ? [
              { label: 'Aircraft', value: finding.order.aircraft.registration },
              { label: 'Order', value: `${finding.order.number}, finding ${finding.number}` },
            ]
          : []
      }
    >
      {() => (
        <>
          <p className={styles.where}>
            <ViewLink view={{ kind: 'list' }}>Bench</ViewLink>
            {finding ? ` / ${finding.order.aircraft.registration}, finding ${finding.number}` : ''}
          </p>
          <h2>What it may be</h2>
          {viewer ? <MayBe findingId={id} viewer={viewer} size="bench" /> : null}
        </>
      )}
    </BenchFrame>
  );
}

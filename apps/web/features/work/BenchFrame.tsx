'use client';

import { type ReactNode, Suspense } from 'react';
import { Loading } from '../../components/Empty.tsx';
import { NoAnswer } from '../../components/NoAnswer.tsx';
import { Sheet } from '../../components/Sheet.tsx';
import { RequestProblem } from '../../graphql/request.ts';
import { dayAndTimeText, dayText } from '../../lib/figures/dates.ts';
import { shopClock } from '../../lib/shop-clock.ts';
import { KeptFacts } from '../safety/kept-facts.ts';
import styles from './bench.module.css';
import { ClockStrip } from './late-parts.tsx';
import { counts, shopTimeOf } from './pending.ts';
import { UnsentNotice, useUnsent } from './UnsentNotice.tsx';
import type { Bench } from './use-bench.ts';

/** The sheet around every screen of the bench, with what is not sent yet at its very top. */
export function BenchFrame({
  bench,
  title,
  titleHidden = false,
  what,
  cells = [],
  clock,
  children,
}: {
  bench: Bench;
  title: string;
  titleHidden?: boolean;
  what: string;
  cells?: { label: string; value: string }[];
  /** Null where the sheet itself says what runs. */
  clock?: null;
  children: (known: { personId: string; currency: string; timeZone: string }) => ReactNode;
}) {
  const viewer = bench.viewer.data;
  const unsent = useUnsent(viewer?.person.id);
  const problem = bench.viewer.error ?? bench.bench.error;
  const { failureReason, dataUpdatedAt } = bench.bench;
  const isAway = failureReason instanceof RequestProblem && failureReason.kind === 'away';
  const asOf =
    isAway && viewer && dataUpdatedAt > 0
      ? dayAndTimeText(new Date(dataUpdatedAt + shopClock.known().offsetMs), viewer.shop.timeZone)
      : null;
  const known = bench.bench.data !== undefined && viewer !== undefined;
  const facts = {
    note: bench.note,
    unsent: bench.mine.flatMap((entry) =>
      entry.kind === 'care' && counts(entry)
        ? [{ ...entry, at: new Date(shopTimeOf(entry)).toISOString() }]
        : [],
    ),
  };
  return (
    <Sheet
      here="bench"
      reading="bench"
      viewer={viewer ? { name: viewer.person.name, roles: viewer.person.roles } : null}
      title={title}
      titleHidden={titleHidden}
      clock={clock === undefined ? <BenchStrip bench={bench} /> : clock}
      titleBlock={{
        what,
        cells: [
          ...cells,
          { label: 'Who', value: viewer?.person.name ?? '' },
          ...(viewer
            ? [{ label: 'Day', value: dayText(new Date(shopClock.now()), viewer.shop.timeZone) }]
            : []),
        ],
      }}
      {...(unsent.length > 0 || asOf !== null
        ? {
            notice: (
              <>
                {asOf === null ? null : (
                  <p>
                    The shop cannot be reached from here. This is the work as of{' '}
                    <span className={styles.figures}>{asOf}</span>; what you do counts and is sent
                    when it can be.
                  </p>
                )}
                {unsent.length === 0 ? null : <UnsentNotice unsent={unsent} />}
              </>
            ),
          }
        : {})}
    >
      {problem !== null && !known ? (
        <NoAnswer
          head="Nothing to show yet"
          problem={problem}
          onAgain={() => {
            void bench.viewer.refetch();
            void bench.bench.refetch();
          }}
        />
      ) : known ? (
        <KeptFacts value={facts}>
          {children({
            personId: viewer.person.id,
            currency: viewer.shop.currency,
            timeZone: viewer.shop.timeZone,
          })}
        </KeptFacts>
      ) : (
        <Loading>Looking up the work</Loading>
      )}
    </Sheet>
  );
}

/** What runs, on a sheet of the bench that is about something else: with what is not sent yet. */
function BenchStrip({
  bench: { running, runningItem: item, viewer, costAhead },
}: {
  bench: Bench;
}) {
  if (running === null || item === null || viewer.data === undefined) return null;
  return (
    <Suspense>
      <ClockStrip
        since={running.startedAt}
        title={item.title}
        order={{ ...item.order, costAhead }}
        currency={viewer.data.shop.currency}
      />
    </Suspense>
  );
}

'use client';

import type { ReactNode } from 'react';
import { Loading } from '../../components/Empty.tsx';
import { NoAnswer } from '../../components/NoAnswer.tsx';
import { Sheet } from '../../components/Sheet.tsx';
import { dayText } from '../../lib/figures/dates.ts';
import { UnsentNotice, useUnsent } from './UnsentNotice.tsx';
import type { Bench } from './use-bench.ts';

/** The sheet around every screen of the bench, with what is not sent yet at its very top. */
export function BenchFrame({
  bench,
  title,
  titleHidden = false,
  what,
  cells = [],
  children,
}: {
  bench: Bench;
  title: string;
  titleHidden?: boolean;
  what: string;
  cells?: { label: string; value: string }[];
  children: (known: { personId: string; currency: string; timeZone: string }) => ReactNode;
}) {
  const viewer = bench.viewer.data;
  const unsent = useUnsent(viewer?.person.id);
  const problem = bench.viewer.error ?? bench.bench.error;
  const known = bench.bench.data !== undefined && viewer !== undefined;
  return (
    <Sheet
      here="bench"
      reading="bench"
      viewer={viewer ? { name: viewer.person.name, roles: viewer.person.roles } : null}
      title={title}
      titleHidden={titleHidden}
      titleBlock={{
        what,
        cells: [
          ...cells,
          { label: 'Who', value: viewer?.person.name ?? '' },
          ...(viewer ? [{ label: 'Day', value: dayText(new Date(), viewer.shop.timeZone) }] : []),
        ],
      }}
      {...(unsent.length > 0 ? { notice: <UnsentNotice unsent={unsent} /> } : {})}
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
        children({
          personId: viewer.person.id,
          currency: viewer.shop.currency,
          timeZone: viewer.shop.timeZone,
        })
      ) : (
        <Loading>Looking up the work</Loading>
      )}
    </Sheet>
  );
}

'use client';

import { type ReactNode, useState } from 'react';
import type { BenchItem } from './bench-documents.ts';
import { CautionsFirst } from './CautionsFirst.tsx';
import type { Bench } from './use-bench.ts';

type Startable = Pick<BenchItem, 'id' | 'title' | 'cautions' | 'cautionsRead'>;

/** Starts the clock of an item, after its cautions where they were not read yet. */
export function useStart(bench: Bench): { press: (item: Startable) => void; asking: ReactNode } {
  const [asked, setAsked] = useState<Startable | null>(null);
  const press = (item: Startable) => {
    if (bench.cautionsRead(item)) void bench.start(item);
    else setAsked(item);
  };
  const asking =
    asked === null ? null : (
      <CautionsFirst
        item={asked}
        onRead={() => {
          setAsked(null);
          void bench.readCautions(asked);
          void bench.start(asked);
        }}
        onLeave={() => setAsked(null)}
      />
    );
  return { press, asking };
}

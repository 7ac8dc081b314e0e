'use client';

import { type ReactNode, Suspense, useState } from 'react';
import { CautionsFirst } from './CautionsFirst.tsx';
import { SupervisorFirst } from './late-parts.tsx';
import type { Bench, ItemHere } from './use-bench.ts';

type Startable = Pick<ItemHere, 'id' | 'title' | 'cautions' | 'cautionsRead'>;

interface Starting {
  press: (item: Startable) => void;
  /** Changes under whom somebody works; of a running clock a stretch begins anew. */
  askSupervisor: () => void;
  asking: ReactNode;
}

/** Starts the clock of an item: after the day's supervision for whoever works under one, and after cautions not read yet. */
export function useStart(bench: Bench): Starting {
  const [asked, setAsked] = useState<Startable | null>(null);
  const [asksSupervisor, setAsksSupervisor] = useState(false);
  const { supervisor, supervisors, running, runningItem } = bench;
  const press = (item: Startable, knowsSupervisor = supervisor !== undefined) => {
    setAsksSupervisor(!knowsSupervisor);
    if (knowsSupervisor && item.cautionsRead) void bench.start(item);
    else setAsked(item);
  };
  const leave = () => {
    setAsksSupervisor(false);
    setAsked(null);
  };
  const chosen = (byId: string | null) => {
    bench.workUnder(byId);
    setAsksSupervisor(false);
    if (asked?.cautionsRead) {
      setAsked(null);
      void bench.start(asked, byId);
    } else if (asked === null && running !== null && runningItem !== null && byId !== supervisor)
      void bench.start(runningItem, byId);
  };
  const asking = asksSupervisor ? (
    <Suspense>
      <SupervisorFirst
        supervisors={supervisors}
        chosen={supervisor}
        words={asked === null || !asked.cautionsRead ? 'Go on' : 'Start the clock'}
        onChosen={chosen}
        onLeave={leave}
      />
    </Suspense>
  ) : asked === null ? null : (
    <CautionsFirst
      item={asked}
      onRead={() => {
        setAsked(null);
        void bench.readCautions(asked);
        void bench.start(asked);
      }}
      onLeave={leave}
    />
  );
  return { press: (item) => press(item), askSupervisor: () => setAsksSupervisor(true), asking };
}

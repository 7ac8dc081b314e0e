'use client';

import { useQuery, useQueryClient } from '@tanstack/react-query';
import { useEffect } from 'react';
import { request } from '../../graphql/request.ts';
import { readAgain } from '../../lib/read-again.ts';
import { useKnownViewer } from '../../lib/use-viewer.ts';
import { ClockStrip } from './ClockStrip.tsx';
import { outbox } from './outbox.ts';
import { RunningDocument } from './running-document.ts';
import { runningNow } from './running-now.ts';
import { useOutbox } from './use-bench.ts';

/**
 * The running clock of whoever reads a sheet other than the bench. What they did at the bench and is not sent yet counts,
 * and is sent from here as well.
 */
export default function ElsewhereClock() {
  const viewer = useKnownViewer();
  const queries = useQueryClient();
  const personId = viewer?.person.id;
  const asked = useQuery({ queryKey: ['running'], queryFn: () => request(RunningDocument) });
  const { pending } = useOutbox();
  useEffect(() => {
    if (personId === undefined) return;
    return outbox.open({
      personId,
      onTaken: () => readAgain(queries, ['running']),
    });
  }, [personId, queries]);
  if (viewer === undefined || asked.data === undefined) return null;
  const server = asked.data.bench?.running ?? null;
  const mine = pending.filter((entry) => entry.personId === personId);
  const running = runningNow(
    server && { itemId: server.item.id, startedAt: String(server.startedAt) },
    mine,
  );
  if (running === null) return null;
  const known = server?.item.id === running.itemId ? server.item : null;
  const begun = mine.findLast(
    (entry) => entry.kind === 'clock' && entry.input.itemId === running.itemId,
  );
  return (
    <ClockStrip
      since={running.startedAt}
      title={known?.title ?? begun?.words ?? 'Your clock runs'}
      order={known?.order ?? null}
      currency={viewer.shop.currency}
    />
  );
}

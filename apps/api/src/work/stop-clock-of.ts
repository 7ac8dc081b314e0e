import { randomUUID } from 'node:crypto';
import type { Tx } from '@fairlead/database';
import { holdClock, rebuildStretches } from './rebuild-stretches.ts';

/**
 * Stops somebody's running clock for them, because they leave: a clock that nobody can stop would run for ever.
 * Answers whether one ran. What they clocked stays theirs.
 */
export async function stopClockOf(tx: Tx, personId: string, now: Date): Promise<boolean> {
  // load
  await holdClock(tx, personId);
  const running = await tx.stretch.findFirst({
    where: { personId, endedAt: null },
    select: { startedAt: true },
  });
  // decide
  if (!running) return false;
  // A device whose clock was ahead started it later than now.
  const at = now > running.startedAt ? now : running.startedAt;
  // save
  await tx.clockEvent.create({
    data: {
      personId,
      kind: 'stop',
      itemId: null,
      at,
      receivedAt: now,
      clientEventId: randomUUID(),
    },
    select: { id: true },
  });
  await rebuildStretches(tx, personId, at);
  return true;
}

import type { Tx } from '@fairlead/database';
import { dueOn } from './due-list.ts';
import { type DueRow, dueFacts } from './due-terms.ts';

/** What falls due no more on an aircraft and its parts: its status goes with the records all the same. */
export function endedItems(read: Tx, aircraftId: string): Promise<DueRow[]> {
  return read.dueItem.findMany({
    where: { ...dueOn(aircraftId), events: { some: { kind: { not: 'complied' } } } },
    orderBy: [{ number: 'asc' }, { title: 'asc' }, { id: 'asc' }],
    select: dueFacts,
  });
}

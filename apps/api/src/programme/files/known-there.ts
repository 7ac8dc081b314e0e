import type { Tx } from '@fairlead/database';
import type { GivenCounts } from '../counts.ts';
import type { DueList } from '../due-list.ts';
import { type PartOfDue, partHistoryFacts } from '../due-terms.ts';

/** What rows of a file may name on an aircraft. */
export interface KnownThere {
  registration: string;
  tisHundredths: number | null;
  counts: GivenCounts;
  /** Fitted parts by number and serial number. */
  parts: ReadonlyMap<string, PartOfDue>;
  /** Tasks of the shop by their short names. */
  tasks: ReadonlyMap<string, string>;
  /** What falls due already, by title, number and part. */
  items: ReadonlySet<string>;
}

export const partKey = ({ number, serial }: { number: string; serial: string }) =>
  `${number} ${serial}`.toLowerCase();

export async function knownThere(
  tx: Tx,
  { aircraftId, registration, tisHundredths, counted, lines }: DueList,
): Promise<KnownThere> {
  const parts = await tx.component.findMany({
    where: { fittings: { some: { aircraftId, removedAt: null } } },
    select: partHistoryFacts,
  });
  const tasks = await tx.task.findMany({ select: { id: true, key: true } });
  const keyOf = (part: { partNumber: string; serial: string }) =>
    partKey({ number: part.partNumber, serial: part.serial });
  return {
    ...{ registration, tisHundredths, counts: counted.counts },
    parts: new Map(parts.map((part) => [keyOf(part), part])),
    tasks: new Map(tasks.map(({ id, key }) => [key, id])),
    items: new Set(
      lines.map(({ row: { title, number, component } }) =>
        `${title} ${number} ${component ? keyOf(component) : ''}`.toLowerCase(),
      ),
    ),
  };
}

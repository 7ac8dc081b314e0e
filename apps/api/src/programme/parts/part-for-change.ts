import type { Prisma, Tx } from '@fairlead/database';
import { notFound } from '../../errors.ts';

const facts = {
  ...{ id: true, title: true, serial: true, partNumber: true, lifeLimitHundredths: true },
  dueItems: { where: { kind: 'limit' }, select: { id: true }, take: 1 },
  fittings: {
    orderBy: [{ fittedAt: 'desc' }, { id: 'desc' }],
    select: {
      ...{ id: true, aircraftId: true, position: true, fittedAt: true, removedAt: true },
      ...{ aircraftTisHundredths: true, removedTisHundredths: true },
      ...{ aircraftCycles: true, aircraftLandings: true, aircraftStarts: true },
      aircraft: { select: { registration: true } },
    },
  },
} satisfies Prisma.ComponentSelect;
type Fitting = Prisma.ComponentGetPayload<{ select: typeof facts }>['fittings'][number];

export interface KnownPart {
  id: string;
  title: string;
  serial: string;
  partNumber: string;
  /** A mandatory replacement limit is known (14 CFR 43.10(a)). */
  lifeLimited: boolean;
  /** Where it is fitted now; null: it lies on the shelf. */
  now: Fitting | null;
  /** Its newest stay, ended or not. */
  last: Fitting | null;
}

/** A part, for whoever fits it or takes it off. */
export async function partForChange(tx: Tx, id: string): Promise<KnownPart> {
  const part = await tx.component.findUnique({ where: { id }, select: facts });
  if (!part) throw notFound('part');
  const { fittings, dueItems, lifeLimitHundredths, ...known } = part;
  return {
    ...known,
    lifeLimited: lifeLimitHundredths !== null || dueItems.length > 0,
    now: fittings.find(({ removedAt }) => removedAt === null) ?? null,
    last: fittings[0] ?? null,
  };
}

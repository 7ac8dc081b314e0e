import type { Tx } from '@fairlead/database';
import { Refused } from '../../errors.ts';
import { sayDay } from '../../given.ts';

/** Certificates on which somebody finds whether a directive applies: a mechanic's, or a repair station's inspector. */
const licences = [
  'mechanic_airframe',
  'mechanic_powerplant',
  'inspection_authorization',
  'repair_station_inspector',
] as const;

/**
 * The program compares numbers; that a directive applies is found by a person who holds a certificate today (common practice
 * under 14 CFR 43.9 and 65.81 ff.; no paragraph says it of the finding alone).
 */
export async function refuseUnlicensed(tx: Tx, personId: string, today: Date): Promise<void> {
  const good = await tx.certificate.findFirst({
    where: {
      personId,
      kind: { in: [...licences] },
      validFrom: { lte: today },
      OR: [{ validUntil: null }, { validUntil: { gte: today } }],
    },
    select: { id: true },
  });
  if (!good)
    throw new Refused(
      'FORBIDDEN',
      `Whether a directive applies is decided by somebody who holds a mechanic’s certificate or is an inspector of the repair station; you hold none that is valid on ${sayDay(today)}.`,
    );
}

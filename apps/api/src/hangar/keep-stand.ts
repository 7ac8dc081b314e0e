import type { Tx } from '@fairlead/database';
import { aircraftToMove, standsNow } from './stay-for-change.ts';
import { planEndHere, plannedEndHere } from './stay-plans.ts';

/**
 * Keeps an aircraft on its stand at least so long: what was planned to end earlier ends then. Where it stands nowhere, or
 * nobody has planned its end, there is nothing to change.
 */
export async function keepStandUntil(
  tx: Tx,
  aircraftId: string,
  until: Date,
  now: Date,
): Promise<void> {
  const aircraft = await aircraftToMove(tx, aircraftId);
  const here = await standsNow(tx, aircraft.id);
  const leaves = here && (await plannedEndHere(tx, aircraft.id, here, now));
  if (here && leaves && leaves < until)
    await planEndHere(tx, aircraft.id, here, { at: until, now });
}

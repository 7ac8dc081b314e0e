import type { Change, Conflict, Floor, Stay } from './floor-documents.ts';

/** An aircraft on the drawing: where it stands, comes to, or leaves from at the row drawn. */
export interface Standing {
  stay: Stay;
  part: 'there' | 'coming' | 'leaving';
}

/**
 * What stands on the floor when a row of the coming changes has happened; `null` is now.
 *
 * Rows are taken one after the other. What is late is taken as the API takes it: an aircraft that
 * should have come counts as there, one that should have left still stands, unless that row itself
 * is drawn. The aircraft of the row drawn is marked, and where it leaves from stays on the drawing.
 */
export function standingAt(floor: Floor, row: number | null): Standing[] {
  let standing = floor.stands.flatMap(({ stay }): Standing[] =>
    stay === null ? [] : [{ stay, part: 'there' }],
  );
  if (row === null) return standing;
  for (const [index, change] of floor.coming.slice(0, row + 1).entries()) {
    const drawn = index === row;
    if (change.kind === 'departure' && change.late && !drawn) continue;
    standing = standing
      .filter(({ part }) => part !== 'leaving')
      .flatMap((each) => after(each, change, drawn));
    if (change.kind !== 'departure')
      standing.push({ stay: change.stay, part: drawn ? 'coming' : 'there' });
  }
  return standing;
}

function after(each: Standing, change: Change, drawn: boolean): Standing[] {
  const goes =
    change.kind === 'departure'
      ? each.stay.id === change.stay.id
      : each.stay.aircraft.id === change.stay.aircraft.id;
  if (!goes) return [each];
  return drawn ? [{ stay: each.stay, part: 'leaving' }] : [];
}

/** The moment that is drawn: the row's, or now where the row is late or none is drawn. */
export function momentOf({ asOf, coming }: Floor, row: number | null): string {
  const change = row === null ? undefined : coming[row];
  return change === undefined || change.late ? asOf : change.at;
}

/** What cannot be at a moment. */
export function conflictsAt(conflicts: readonly Conflict[], at: string): Conflict[] {
  const moment = Date.parse(at);
  return conflicts.filter(
    ({ from, to }) => Date.parse(from) <= moment && (to === null || moment < Date.parse(to)),
  );
}

/** When the plan ends a stay that is under way; null where nobody has said. */
export function plannedEnd({ coming }: Floor, stay: Stay): string | null {
  return (
    coming.find((change) => change.kind === 'departure' && change.stay.id === stay.id)?.at ??
    stay.endsAt
  );
}

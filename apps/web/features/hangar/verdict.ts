import { dayAndTimeText } from '../../lib/figures/dates.ts';
import { type Carried, type Target, targetKey } from './carry.ts';
import { roomLeft, whyNot } from './fit-words.ts';
import type { Floor } from './floor-documents.ts';
import { standName } from './floor-words.ts';
import { plannedEnd, type Standing, standingAt } from './standing.ts';

/** What letting go would mean, before anybody lets go. */
export interface Verdict {
  kind: 'fits' | 'same' | 'taken' | 'tight' | 'leaves';
  /** At the hand: "stand 2: fits". */
  short: string;
  sentence: string;
}

/** The floor as it is drawn: what stands where, at which moment. */
export interface DrawnFloor {
  floor: Floor;
  standing: readonly Standing[];
  timeZone: string;
}

/** Every target's verdict on one aircraft, worked out once when it is taken, so that a move only looks up. */
export function verdictsOn(carried: Carried, shown: DrawnFloor): ReadonlyMap<string, Verdict> {
  const drawn = { ...shown, standing: standingFor(carried, shown) };
  const { stands } = drawn.floor;
  const all: Target[] = [
    ...stands.map((stand) => ({ kind: 'stand' as const, stand })),
    { kind: 'door' },
  ];
  return new Map(all.map((target) => [targetKey(target), verdictOn(carried, target, drawn)]));
}

/** What stands on the floor when the aircraft would come: a plan is judged by its own day, not by the day drawn. */
function standingFor({ stay }: Carried, { floor, standing }: DrawnFloor): readonly Standing[] {
  if (stay?.kind !== 'planned') return standing;
  const comes = Date.parse(stay.startsAt);
  const last = floor.coming.findLastIndex(
    (change) => change.stay.id !== stay.id && Date.parse(change.at) <= comes,
  );
  return standingAt(floor, last < 0 ? null : last);
}

function verdictOn({ aircraft, stay }: Carried, target: Target, drawn: DrawnFloor): Verdict {
  const { registration } = aircraft;
  if (target.kind === 'door') {
    const comes = stay?.kind === 'planned';
    return {
      kind: 'leaves',
      short: comes ? 'does not come' : 'out of the door',
      sentence: comes
        ? `${registration} out of the door: it does not come.`
        : `${registration} out of the door: it leaves.`,
    };
  }
  const { stand } = target;
  const name = standName(stand.name);
  if (stay?.stand.id === stand.id)
    return { kind: 'same', short: name, sentence: `${registration} stays on ${name}.` };
  const tight = whyNot(aircraft, stand, drawn.floor, { inside: stay?.kind === 'actual' });
  if (tight !== null) return { kind: 'tight', short: `${name}: too tight`, sentence: tight };
  const there = drawn.standing.find(
    (each) =>
      each.part !== 'leaving' &&
      each.stay.stand.id === stand.id &&
      each.stay.aircraft.id !== aircraft.id,
  );
  if (there !== undefined)
    return { kind: 'taken', short: `${name}: taken`, sentence: takenWords(there, name, drawn) };
  return {
    kind: 'fits',
    short: `${name}: fits`,
    sentence: `${registration} fits ${name}: ${roomLeft(aircraft, stand, drawn.floor)}${nextWords(stand.id, aircraft.id, drawn)}.`,
  };
}

function takenWords({ stay }: Standing, name: string, { floor, timeZone }: DrawnFloor): string {
  const end = plannedEnd(floor, stay);
  const until =
    end === null ? 'nobody has said until when' : `until ${dayAndTimeText(end, timeZone)}`;
  return `${stay.aircraft.registration} is on ${name}, ${until}. For a later day it can be planned.`;
}

/** Who comes to a stand next, of those still to come. */
function nextWords(standId: string, aircraftId: string, { floor, timeZone }: DrawnFloor): string {
  const next = floor.coming.find(
    ({ kind, stay }) =>
      kind !== 'departure' && stay.stand.id === standId && stay.aircraft.id !== aircraftId,
  );
  if (next === undefined) return '';
  return `; ${next.stay.aircraft.registration} comes there ${dayAndTimeText(next.at, timeZone)}`;
}

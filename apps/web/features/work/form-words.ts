import type { ItemOnSheet } from './item-documents.ts';
import type { waitingWords } from './work-words.ts';

type Access = NonNullable<ItemOnSheet['plannedAccess']>;

export const waitingOptions = [
  { value: 'parts', words: 'Parts', note: 'Ordered, or not on the shelf' },
  { value: 'owner', words: 'The owner', note: 'A yes to something' },
  { value: 'inspection', words: 'An inspection', note: 'Before it can be closed up' },
  { value: 'help', words: 'Help', note: 'A second pair of hands' },
  { value: 'bay', words: 'A bay', note: 'Room to work in' },
] as const satisfies readonly { value: keyof typeof waitingWords; words: string; note: string }[];

export const sightOptions = [
  { value: '', words: 'not recorded' },
  { value: 'direct', words: 'in plain sight' },
  { value: 'mirror', words: 'by mirror or borescope' },
  { value: 'feel', words: 'by feel alone' },
] as const;
export const postureOptions = [
  { value: '', words: 'not recorded' },
  { value: 'upright', words: 'upright' },
  { value: 'bent', words: 'bent or kneeling' },
  { value: 'lying', words: 'lying or overhead' },
] as const;
export const reachOptions = [
  { value: '', words: 'not recorded' },
  { value: 'forearm', words: 'up to the forearm' },
  { value: 'arm', words: 'the whole arm' },
] as const;

const wordOf = (options: readonly { value: string; words: string }[], value: string) =>
  options.find((option) => option.value === value)?.words ?? value;

/** A place that is hard to work in, in a few words each. What was not recorded is left out. */
export function accessWords(access: Access): string[] {
  return [
    access.clearanceMm === null ? '' : `${access.clearanceMm} mm of room`,
    access.sight === null ? '' : wordOf(sightOptions, access.sight),
    access.posture === null ? '' : wordOf(postureOptions, access.posture),
    access.reach === null ? '' : `reach: ${wordOf(reachOptions, access.reach)}`,
    access.swingDeg === null ? '' : `tool swings ${access.swingDeg}°`,
    access.held === true ? 'held while fastening' : '',
    // None is the ordinary case and not worth a word.
    access.lockedFasteners ? `${access.lockedFasteners} locked fasteners` : '',
  ].filter((words) => words !== '');
}

export const findingClasses = [
  { value: 'unairworthy', words: 'Unairworthy', note: 'Must not fly like this' },
  { value: 'discrepancy', words: 'Discrepancy', note: 'Not as it should be' },
  { value: 'observation', words: 'Observation', note: 'Worth telling the owner' },
] as const;

export type FoundClass = (typeof findingClasses)[number]['value'];

export const zoneWords = {
  nose: 'Nose',
  cabin: 'Cabin',
  engine_bay: 'Engine bay',
  fuel: 'Fuel tanks and lines',
  mast: 'Mast',
  main_rotor: 'Main rotor',
  propeller: 'Propeller',
  wing: 'Wing',
  gear: 'Landing gear',
  tail_boom: 'Tail boom',
  tail_rotor: 'Tail rotor',
  tail: 'Tail',
} as const;

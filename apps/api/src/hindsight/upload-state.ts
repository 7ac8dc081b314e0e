/** What is known of a file on the desk, without its content. */
export interface UploadFacts {
  readOn: Date | null;
  problem: string;
  takingSince: Date | null;
  movedAt: Date | null;
  takenAt: Date | null;
}

export type UploadState = 'being_read' | 'read' | 'refused' | 'being_taken_in' | 'taken_in';

/** Longer than any single statement of an import takes: whoever was at it is gone. */
const STANDS_STILL_MS = 60_000;

/** Where a file on the desk stands. */
export function uploadState({ readOn, problem, takingSince, takenAt }: UploadFacts): UploadState {
  if (takenAt !== null) return 'taken_in';
  if (problem !== '') return 'refused';
  if (takingSince !== null) return 'being_taken_in';
  return readOn === null ? 'being_read' : 'read';
}

/** Is it being taken in, but nothing moves any more? Then it may be asked for again. */
export const standsStill = (facts: UploadFacts, now: Date): boolean =>
  uploadState(facts) === 'being_taken_in' &&
  now.getTime() - (facts.movedAt ?? facts.takingSince ?? now).getTime() > STANDS_STILL_MS;

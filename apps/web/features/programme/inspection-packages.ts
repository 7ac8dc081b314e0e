import type { AircraftOnRecord, DueLine } from './programme-documents.ts';

type Pack = Pick<AircraftOnRecord['inspectionPackages'][number], 'id' | 'title' | 'inspection'>;
type Asks = Pick<DueLine, 'inspection'>;

/** An annual counts for the 100-hour, never the other way round (14 CFR 91.409(b)). */
const serves = ({ inspection }: Pack, line: Asks): boolean =>
  line.inspection != null &&
  (inspection === line.inspection ||
    (inspection === 'annual' && line.inspection === 'hundred_hour'));

/**
 * The packages that are every inspection that some lines ask for, best first: one that is no more than is asked, before one that
 * is. Empty where none of the lines asks for one, or no package is all of them.
 *
 * @param packages those that fit the aircraft, nearest first
 */
export function packagesFor<P extends Pack>(packages: readonly P[], lines: readonly Asks[]): P[] {
  const asking = lines.filter(({ inspection }) => inspection != null);
  if (asking.length === 0) return [];
  const more = (pack: P) =>
    asking.some(({ inspection }) => inspection === pack.inspection) ? 0 : 1;
  return packages
    .filter((pack) => asking.every((line) => serves(pack, line)))
    .toSorted((one, other) => more(one) - more(other));
}

import { fits, metres } from '@fairlead/hangar';
import { aircraftSize } from '../../components/Silhouette.tsx';
import type { FloorChoicesQuery } from '../../graphql/generated/graphql.ts';
import type { Floor, Stand } from './floor-documents.ts';

type KnownAircraft = FloorChoicesQuery['aircraft']['edges'][number]['node'];

/**
 * Why an aircraft has no room on a stand, in a sentence with the figures; null where it fits. The
 * same rule answers in the API: here it only spares a refusal.
 */
export function whyNot(
  { registration, model }: KnownAircraft,
  stand: Stand,
  { clearanceMm }: Floor,
): string | null {
  const size = aircraftSize(model);
  const fit = fits(
    {
      registration,
      heading: stand.headingDeg,
      shape: {
        kind: model.kind,
        lengthM: metres(size.lengthM),
        spanM: metres(size.spanM),
        heightM: metres(size.heightM),
        parkedLengthM: metres(size.parkedLengthM),
        parkedWidthM: metres(size.parkedWidthM),
      },
    },
    {
      id: stand.id,
      name: stand.name.replace(/^stand\s+/i, ''),
      lengthM: metres(stand.depthMm / 1000),
      widthM: metres(stand.widthMm / 1000),
    },
    { aroundM: metres(clearanceMm / 1000) },
  );
  return fit.fits ? null : `${fit.sentence}.`;
}

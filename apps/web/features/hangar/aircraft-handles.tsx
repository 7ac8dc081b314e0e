import styles from './carry.module.css';
import type { Stay } from './floor-documents.ts';
import { standName } from './floor-words.ts';
import type { Place } from './pose.ts';
import type { Carrying } from './use-carrying.ts';

/** By these the aircraft on the drawing are taken: as large as the parked footprint, and never too small to press. */
export function AircraftHandles({
  places,
  left,
  top,
  share,
  carrying,
}: {
  places: readonly Place[];
  left: (x: number) => string;
  top: (y: number) => string;
  /** Metres as a share of the drawing's width and height. */
  share: { across: (metres: number) => string; along: (metres: number) => string };
  carrying: Carrying;
}) {
  return places.map((each) =>
    each.part === 'leaving' ? null : (
      <button
        key={each.id}
        type="button"
        className={styles.handle}
        data-screen-only
        data-takes={each.stay.aircraft.registration}
        aria-label={handleWords(each.stay)}
        aria-describedby="how-to-carry"
        style={{
          left: left(each.x),
          top: top(each.y),
          width: share.across(each.width),
          height: share.along(each.depth),
        }}
        {...carrying.handlers({ aircraft: each.stay.aircraft, stay: each.stay }, each)}
      />
    ),
  );
}

const handleWords = ({ aircraft, stand }: Stay) =>
  `Take ${aircraft.registration} from ${standName(stand.name)}`;

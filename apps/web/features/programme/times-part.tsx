'use client';

import { useQuery, useQueryClient } from '@tanstack/react-query';
import { More } from '../../components/More.tsx';
import { NoAnswer } from '../../components/NoAnswer.tsx';
import { PartsList } from '../../components/PartsList.tsx';
import type { Meter } from '../../graphql/generated/graphql.ts';
import { request } from '../../graphql/request.ts';
import { dayText } from '../../lib/figures/dates.ts';
import { FilePart } from './file-part.tsx';
import { hoursWords } from './hours-words.ts';
import styles from './programme.module.css';
import { countsWords } from './programme-words.ts';
import { ReadingForm } from './reading-form.tsx';
import { AircraftTimesDocument, type ReadingShown } from './times-documents.ts';

export const meterWords: Record<Meter, string> = {
  tachometer: 'tachometer',
  engine_on: 'engine-on meter',
  airborne: 'airborne meter',
};

/** An aircraft's meters as they were read, and the ways in for more: by hand, by photo, by a list of flights. */
export function TimesPart({ aircraftId, timeZone }: { aircraftId: string; timeZone: string }) {
  const client = useQueryClient();
  const { data, error } = useQuery({
    queryKey: ['aircraftTimes', aircraftId],
    queryFn: async () => {
      const { node } = await request(AircraftTimesDocument, { id: aircraftId });
      return node?.__typename === 'Aircraft' ? node.readings : [];
    },
  });
  return (
    <section className={styles.part} aria-labelledby="times">
      <h2 id="times">Time in service</h2>
      {error ? (
        <NoAnswer
          head="No times to show"
          problem={error}
          onAgain={() => void client.refetchQueries()}
        />
      ) : data?.length === 0 ? (
        <p className={styles.quiet}>No meter was read yet.</p>
      ) : (
        <Readings readings={data ?? []} timeZone={timeZone} />
      )}
      <div data-screen-only="" className={styles.form}>
        <More words="Read a meter">
          <ReadingForm aircraftId={aircraftId} newest={data?.[0]?.meter ?? 'tachometer'} />
        </More>
        <More words="Take in a list of flights">
          <FilePart
            address={`/due/flights/${encodeURIComponent(aircraftId)}`}
            label="A list of flights"
            hint="CSV: date, flight_time, landings, starts, cycles; flights after the last reading"
            said={({ flights, hundredths }) =>
              `${flights ?? 0} flights with ${hoursWords(hundredths)} were added.`
            }
          />
        </More>
      </div>
    </section>
  );
}

function Readings({ readings, timeZone }: { readings: readonly ReadingShown[]; timeZone: string }) {
  return (
    <PartsList
      caption="Read last"
      columns={[
        { key: 'when', head: 'When' },
        { key: 'reading', head: 'Reading', kind: 'figure' },
        { key: 'offset', head: 'Earlier meters', kind: 'figure' },
        { key: 'tis', head: 'Time in service', kind: 'figure' },
      ]}
      rows={readings.map((reading) => ({
        key: reading.id,
        cells: {
          when: `${dayText(reading.readAt, timeZone)}, ${meterWords[reading.meter]}`,
          reading:
            reading.source === 'flight_list' ? 'not read' : hoursWords(reading.readingHundredths),
          offset:
            reading.offsetHundredths === 0 || reading.source === 'flight_list'
              ? ''
              : hoursWords(reading.offsetHundredths),
          tis: hoursWords(reading.tisHundredths),
        },
        note: noteOf(reading),
      }))}
    />
  );
}

function noteOf({
  source,
  oldReadingHundredths,
  reason,
  readBy,
  photo,
  counts,
  ...flown
}: ReadingShown) {
  const counted = countsWords(counts);
  const words = [
    ...(readBy == null ? [] : [`by ${readBy.name}`]),
    ...(source === 'replaced'
      ? [`meter replaced, the old one at ${hoursWords(oldReadingHundredths)}`]
      : []),
    ...(source === 'flight_list'
      ? [`listed flights: ${flown.landings} landings, ${flown.starts} starts`]
      : []),
    ...(counted === '' ? [] : [`${counted} in all`]),
    ...(reason === '' ? [] : [`questioned, and right because: ${reason}`]),
  ].join(' · ');
  return (
    <>
      {words}
      {photo == null ? null : (
        <>
          {words === '' ? '' : ' · '}
          <a href={photo.largeUrl}>photo of the meter</a>
        </>
      )}
    </>
  );
}

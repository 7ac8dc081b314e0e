'use client';

import { useQuery, useQueryClient } from '@tanstack/react-query';
import { Loading } from '../../components/Empty.tsx';
import { ErrorNote } from '../../components/ErrorNote.tsx';
import { More } from '../../components/More.tsx';
import { NoAnswer } from '../../components/NoAnswer.tsx';
import { PartsList } from '../../components/PartsList.tsx';
import { Sheet } from '../../components/Sheet.tsx';
import { request } from '../../graphql/request.ts';
import { dayText } from '../../lib/figures/dates.ts';
import { useViewer } from '../../lib/use-viewer.ts';
import { TakeOffForm } from './fit-forms.tsx';
import { dispositionWords, HandleForm } from './handling-fields.tsx';
import { hoursWords } from './hours-words.ts';
import { ComponentDocument, type PartOfSheet } from './part-documents.ts';
import styles from './programme.module.css';
import { countsWords } from './programme-words.ts';
import { RecordsNav } from './records-nav.tsx';

/** One part: its own times, and every aircraft that it was on. */
export function PartSheet({ id }: { id: string }) {
  const viewer = useViewer();
  const client = useQueryClient();
  const { data, error } = useQuery({
    queryKey: ['component', id],
    queryFn: async () => (await request(ComponentDocument, { id })).node,
  });
  const problem = viewer.error ?? error;
  const part = data?.__typename === 'Component' ? data : null;
  const timeZone = viewer.data?.shop.timeZone ?? 'UTC';
  return (
    <Sheet
      here="records"
      viewer={viewer.data?.person ?? null}
      title={part ? `${part.title}, serial ${part.serial}` : 'A part with times'}
      titleBlock={{
        what: 'A part, its times and where it was',
        cells: part
          ? [
              { label: 'Part number', value: part.partNumber, figures: true },
              { label: 'Serial', value: part.serial, figures: true },
              {
                label: 'Since new',
                value: hoursWords(part.times.tisHundredths) ?? 'not known',
                figures: true,
              },
              {
                label: 'Where',
                value: part.aircraft?.registration ?? 'on the shelf',
                span: 'whole',
              },
            ]
          : [],
      }}
    >
      <div className={styles.sections}>
        <RecordsNav />
        {part && viewer.data ? (
          <Drawn part={part} timeZone={timeZone} />
        ) : problem ? (
          <NoAnswer
            head="No part to show"
            problem={problem}
            onAgain={() => void client.refetchQueries()}
            action={<a href="/records/parts">All parts</a>}
          />
        ) : data === undefined || viewer.data === undefined ? (
          <Loading>Fetching the part</Loading>
        ) : (
          <ErrorNote head="No part to show" action={<a href="/records/parts">All parts</a>}>
            There is no such part in this shop.
          </ErrorNote>
        )}
      </div>
    </Sheet>
  );
}

function Drawn({ part, timeZone }: { part: PartOfSheet; timeZone: string }) {
  const { id, title, times, stays, aircraft } = part;
  const newest = stays[0];
  return (
    <>
      <dl className={styles.facts}>
        <div>
          <dt>Since overhaul</dt>
          <dd>{hoursWords(times.sinceOverhaulHundredths) ?? 'none is known here'}</dd>
        </div>
        {countsWords(times.counts) === '' ? null : (
          <div>
            <dt>Counted since new</dt>
            <dd>{countsWords(times.counts)}</dd>
          </div>
        )}
        <div>
          <dt>Life</dt>
          <dd>
            {times.lifeLimitHundredths == null
              ? 'none is entered'
              : times.tisHundredths == null
                ? hoursWords(times.lifeLimitHundredths)
                : `${hoursWords(times.lifeLimitHundredths)}, ${hoursWords(times.lifeLimitHundredths - times.tisHundredths)} left`}
          </dd>
        </div>
      </dl>
      {times.problem == null ? null : <p className={styles.caution}>{times.problem}.</p>}
      {stays.length === 0 ? (
        <p className={styles.quiet}>It was fitted nowhere yet, as far as is entered here.</p>
      ) : (
        <PartsList
          caption="Where it was, newest first"
          columns={[
            { key: 'where', head: 'Aircraft' },
            { key: 'fitted', head: 'Fitted' },
            { key: 'own', head: 'Own time then', kind: 'figure' },
            { key: 'off', head: 'Taken off' },
            { key: 'after', head: 'Own time then', kind: 'figure' },
          ]}
          rows={stays.map((stay) => ({
            key: `${stay.aircraft} ${stay.fittedAt}`,
            cells: {
              where: `${stay.aircraft}, ${stay.position}`,
              fitted: `${dayText(stay.fittedAt, timeZone)} at ${hoursWords(stay.aircraftAtFitting)}`,
              own: hoursWords(stay.ownAtFitting),
              off:
                stay.removedAt == null
                  ? 'is there'
                  : `${dayText(stay.removedAt, timeZone)} at ${hoursWords(stay.aircraftAtRemoval) ?? 'a time not entered'}`,
              after: hoursWords(stay.ownAtRemoval),
            },
            note: [
              ...(stay.carriedBy == null ? [] : [`on ${stay.carriedBy}`]),
              ...(stay.fittedBy == null ? [] : [`fitted by ${stay.fittedBy}`]),
              ...(stay.removedBy == null ? [] : [`taken off by ${stay.removedBy}`]),
              ...(stay.removalWords === '' ? [] : [stay.removalWords]),
              ...(stay.fittedInWork == null ? [] : [`fitted in ${stay.fittedInWork}`]),
              ...(stay.removedInWork == null ? [] : [`came off in ${stay.removedInWork}`]),
              ...(stay.disposition == null
                ? []
                : [
                    `${dispositionWords[stay.disposition]}${stay.dispositionWords === '' ? '' : `: ${stay.dispositionWords}`}`,
                  ]),
            ].join(' · '),
          }))}
        />
      )}
      {newest && part.workLately.length > 0 ? (
        <div data-screen-only="">
          <More words="Name the work in whose course it went on or came off">
            <HandleForm stay={newest} work={part.workLately} />
          </More>
        </div>
      ) : null}
      {aircraft == null ? (
        <p>It lies on the shelf: fit it on the sheet of the aircraft’s records.</p>
      ) : (
        <>
          <p>
            <a href={`/records/aircraft/${aircraft.id}`}>All records of {aircraft.registration}</a>
          </p>
          <div data-screen-only="">
            <More words={`Take it off ${aircraft.registration}`}>
              <TakeOffForm
                componentId={id}
                name={title}
                lifeLimited={times.lifeLimitHundredths != null}
                work={aircraft.workHere}
              />
            </More>
          </div>
        </>
      )}
    </>
  );
}

'use client';

import { useQuery, useQueryClient } from '@tanstack/react-query';
import { Empty, Loading } from '../../components/Empty.tsx';
import { More } from '../../components/More.tsx';
import { NoAnswer } from '../../components/NoAnswer.tsx';
import { PartsList } from '../../components/PartsList.tsx';
import { Sheet } from '../../components/Sheet.tsx';
import { request } from '../../graphql/request.ts';
import { dayText } from '../../lib/figures/dates.ts';
import { useViewer } from '../../lib/use-viewer.ts';
import { AddPartForm } from './add-part-form.tsx';
import { hoursWords } from './hours-words.ts';
import { ComponentsDocument, type KnownPart } from './part-documents.ts';
import styles from './programme.module.css';
import { RecordsNav } from './records-nav.tsx';

const notes = [
  'A life goes with the part: at each removal its number, serial number and life status go along (14 CFR 43.10). Times shown are as entered here.',
];

/** Every serialised part that the shop knows, fitted or on the shelf, with its own times. */
export function PartsSheet() {
  const viewer = useViewer();
  const client = useQueryClient();
  const { data, error } = useQuery({
    queryKey: ['components'],
    queryFn: async () => (await request(ComponentsDocument)).components,
  });
  const problem = viewer.error ?? error;
  const shelf = data?.filter(({ aircraft }) => aircraft == null) ?? [];
  return (
    <Sheet
      here="records"
      viewer={viewer.data?.person ?? null}
      title="Parts with times"
      notes={notes}
      titleBlock={{
        what: 'Serialised parts, fitted and on the shelf',
        cells:
          data && viewer.data
            ? [
                { label: 'Parts', value: data.length, figures: true },
                { label: 'On the shelf', value: shelf.length, figures: true },
                {
                  label: 'Date',
                  value: dayText(new Date(), viewer.data.shop.timeZone),
                  figures: true,
                },
                { label: 'Shop', value: viewer.data.shop.name, span: 'whole' },
              ]
            : [],
      }}
    >
      <div className={styles.sections}>
        <RecordsNav here="parts" />
        {data && viewer.data ? (
          <>
            {data.length === 0 ? (
              <Empty>
                No part with a time of its own is entered yet; engines and life-limited parts are
                the usual first ones.
              </Empty>
            ) : (
              <Known parts={[...shelf, ...data.filter(({ aircraft }) => aircraft != null)]} />
            )}
            <div data-screen-only="">
              <More words="Enter a part with a time of its own">
                <AddPartForm />
              </More>
            </div>
          </>
        ) : problem ? (
          <NoAnswer
            head="No parts to show"
            problem={problem}
            onAgain={() => void client.refetchQueries()}
          />
        ) : (
          <Loading>Fetching the parts</Loading>
        )}
      </div>
    </Sheet>
  );
}

function Known({ parts }: { parts: readonly KnownPart[] }) {
  return (
    <PartsList
      caption="On the shelf first"
      columns={[
        { key: 'part', head: 'Part' },
        { key: 'where', head: 'Where' },
        { key: 'new', head: 'Since new', kind: 'figure' },
        { key: 'overhaul', head: 'Since overhaul', kind: 'figure' },
        { key: 'life', head: 'Life', kind: 'figure' },
      ]}
      rows={parts.map(({ id, title, partNumber, serial, aircraft, times }) => ({
        key: id,
        cells: {
          part: (
            <a href={`/records/parts/${id}`}>
              {title}, {partNumber}, serial {serial}
            </a>
          ),
          where:
            aircraft == null ? (
              'on the shelf'
            ) : (
              <a href={`/records/aircraft/${aircraft.id}`}>{aircraft.registration}</a>
            ),
          new: hoursWords(times.tisHundredths) ?? 'not known',
          overhaul: hoursWords(times.sinceOverhaulHundredths),
          life: hoursWords(times.lifeLimitHundredths),
        },
        ...(times.problem == null ? {} : { note: `${times.problem}.` }),
      }))}
    />
  );
}

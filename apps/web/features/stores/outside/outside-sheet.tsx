'use client';

import { useQuery, useQueryClient } from '@tanstack/react-query';
import { Empty, Loading } from '../../../components/Empty.tsx';
import { NoAnswer } from '../../../components/NoAnswer.tsx';
import { PartsList } from '../../../components/PartsList.tsx';
import { Sheet } from '../../../components/Sheet.tsx';
import { request } from '../../../graphql/request.ts';
import { dayText } from '../../../lib/figures/dates.ts';
import { useViewer } from '../../../lib/use-viewer.ts';
import styles from '../stores.module.css';
import { StoresSheets } from '../stores-sheets.tsx';
import { OutsideWorkDocument } from './outside-documents.ts';
import { outsideWords, pieceWords } from './outside-words.ts';

const notes = [
  'What comes back is taken with its release tag, or for a reason under the name of whoever takes it (common practice, no source).',
  'Whether a part may be fitted is decided by whoever signs for it.',
];

/** What is with other shops now, and what of it is overdue. */
export function OutsideSheet() {
  const viewer = useViewer();
  const client = useQueryClient();
  const { data, error } = useQuery({
    queryKey: ['outsideWork'],
    queryFn: async () => (await request(OutsideWorkDocument)).outsideWork,
  });
  const problem = viewer.error ?? error;
  const shop = viewer.data?.shop;
  return (
    <Sheet
      here="stores"
      viewer={viewer.data?.person ?? null}
      title="Out with others"
      notes={notes}
      titleBlock={{
        what: 'What other shops work on',
        cells:
          data && shop
            ? [
                { label: 'Out', value: String(data.length), figures: true },
                {
                  label: 'Overdue',
                  value: String(data.filter(({ overdue }) => overdue).length),
                  figures: true,
                },
                { label: 'Date', value: dayText(new Date(), shop.timeZone), figures: true },
                { label: 'Shop', value: shop.name, span: 'whole' },
              ]
            : [],
      }}
    >
      {data && shop ? (
        <div className={styles.sections}>
          <StoresSheets here="outside" />
          {data.length === 0 ? (
            <Empty>Nothing is out: what is sent to another shop from an order stands here.</Empty>
          ) : (
            <PartsList
              caption="Out with others"
              columns={[
                { key: 'what', head: 'What' },
                { key: 'whom', head: 'With whom' },
                { key: 'when', head: 'Promised' },
              ]}
              rows={data
                .toSorted((one, other) => Number(other.overdue) - Number(one.overdue))
                .map((job) => ({
                  key: job.id,
                  note: (
                    <>
                      <a href={`/desk/orders/${job.item.order.id}`}>
                        {job.item.order.aircraft.registration}, order {job.item.order.number}
                      </a>{' '}
                      · {job.item.title}
                    </>
                  ),
                  cells: {
                    what: [`${job.number} · ${job.what}`, pieceWords(job)]
                      .filter(Boolean)
                      .join(', '),
                    whom: job.vendor,
                    when: (
                      <span className={job.overdue ? styles.ochre : undefined}>
                        {outsideWords(job, shop.timeZone)}
                      </span>
                    ),
                  },
                }))}
            />
          )}
        </div>
      ) : problem ? (
        <NoAnswer
          head="Nothing to show"
          problem={problem}
          onAgain={() => void client.refetchQueries()}
        />
      ) : (
        <Loading>Looking for what is out</Loading>
      )}
    </Sheet>
  );
}

'use client';

import { useQuery, useQueryClient } from '@tanstack/react-query';
import { Button } from '../../components/Button.tsx';
import { Loading } from '../../components/Empty.tsx';
import { ErrorNote } from '../../components/ErrorNote.tsx';
import { NoAnswer } from '../../components/NoAnswer.tsx';
import { Sheet } from '../../components/Sheet.tsx';
import { Stamp } from '../../components/Stamp.tsx';
import { request } from '../../graphql/request.ts';
import { calendarDateText, dayText } from '../../lib/figures/dates.ts';
import { paperHref } from '../../lib/paper-href.ts';
import { useViewer } from '../../lib/use-viewer.ts';
import { EntrySheetDocument } from './entry-documents.ts';
import { EntryText, StruckNote } from './entry-paper.tsx';
import styles from './records.module.css';
import { certificateWords, nameOfBook, recordHours } from './records-words.ts';

/** One signed entry alone on its sheet, to be printed and put into the owner's book. */
export function EntrySheet({ id }: { id: string }) {
  const viewer = useViewer();
  const client = useQueryClient();
  const { data, error } = useQuery({
    queryKey: ['entry', id],
    queryFn: async () => (await request(EntrySheetDocument, { id })).node,
  });
  const problem = viewer.error ?? error;
  if (viewer.data === undefined || data?.__typename !== 'RecordEntry') {
    return (
      <Sheet
        here="records"
        viewer={viewer.data?.person ?? null}
        title="Entry"
        titleBlock={{ what: 'Entry', cells: [] }}
      >
        {problem !== null ? (
          <NoAnswer
            head="No entry to show"
            problem={problem}
            onAgain={() => void client.refetchQueries()}
            action={<a href="/records">All orders</a>}
          />
        ) : data === undefined ? (
          <Loading>Fetching the entry</Loading>
        ) : (
          <ErrorNote head="No entry to show" action={<a href="/records">All orders</a>}>
            There is no such entry in this shop.
          </ErrorNote>
        )}
      </Sheet>
    );
  }
  const { order } = data;
  return (
    <Sheet
      here="records"
      viewer={viewer.data.person}
      title={nameOfBook(data.book)}
      notes={data.cautions}
      titleBlock={{
        what: `${order.title}, order ${order.number}`,
        cells: [
          { label: 'Aircraft', value: order.aircraft.registration, figures: true },
          { label: 'Serial', value: order.aircraft.serial, figures: true },
          { label: 'Completed', value: calendarDateText(data.completedOn), figures: true },
          {
            label: 'Time in service',
            value: `${recordHours(data.tisHundredths)} h`,
            figures: true,
            span: 'half',
          },
          {
            label: 'Type',
            value: `${order.aircraft.model.maker} ${order.aircraft.model.name}`,
            span: 'half',
          },
          ...(data.proof == null
            ? []
            : [
                {
                  label: `Record ${data.proof.number}, shop’s key`,
                  value: <span className={styles.hash}>{data.proof.key}</span>,
                  span: 'whole' as const,
                },
              ]),
          {
            label: 'Chain',
            value: <span className={styles.hash}>{data.proof?.hash ?? data.chainHash}</span>,
            span: 'whole',
          },
        ],
        stamp: (
          <Stamp
            kind={certificateWords[data.certificateKind]}
            name={data.signature}
            number={data.certificateNumber}
            date={dayText(data.signedAt, viewer.data.shop.timeZone)}
          />
        ),
      }}
    >
      <div className={styles.form}>
        <StruckNote entry={data} timeZone={viewer.data.shop.timeZone} />
        {data.corrects == null ? null : (
          <p>
            <a href={`/records/entries/${data.corrects.id}`}>
              It strikes through the entry signed{' '}
              {dayText(data.corrects.signedAt, viewer.data.shop.timeZone)}
            </a>
          </p>
        )}
        <EntryText text={data.text} struck={data.corrections.length > 0} />
        <div className={styles.row} data-screen-only="">
          <Button kind="primary" onClick={() => window.print()}>
            Print
          </Button>
          <a href={paperHref('entry', data.id)}>PDF, A4</a>
          <a href={paperHref('entry', data.id, 'letter')}>PDF, Letter</a>
          <a href={paperHref('entry', data.id, 'sheet')}>PDF, adhesive sheet</a>
          {data.discrepancies.length > 0 ? (
            <a href={paperHref('discrepancies', data.id)}>PDF, list of discrepancies</a>
          ) : null}
          <a href={`/records/${order.id}`}>Order {order.number}</a>
        </div>
      </div>
    </Sheet>
  );
}

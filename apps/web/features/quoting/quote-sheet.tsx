'use client';

import { useQuery, useQueryClient } from '@tanstack/react-query';
import Link from 'next/link';
import { ButtonLink } from '../../components/Button.tsx';
import { Loading } from '../../components/Empty.tsx';
import { ErrorNote } from '../../components/ErrorNote.tsx';
import { Hatch } from '../../components/Hatch.tsx';
import { NoAnswer } from '../../components/NoAnswer.tsx';
import { Sheet } from '../../components/Sheet.tsx';
import { request } from '../../graphql/request.ts';
import { calendarDateText, dayText } from '../../lib/figures/dates.ts';
import { paperHref } from '../../lib/paper-href.ts';
import { useViewer, type Viewer } from '../../lib/use-viewer.ts';
import { PromisePart } from '../hangar/promise-part.tsx';
import { OwnerLinks } from '../owner/owner-links.tsx';
import { AskedAgain } from './asked-again.tsx';
import { LearnedBefore } from './learned-before.tsx';
import { QuoteBody } from './quote-body.tsx';
import { type QuoteSheetData, QuoteSheetDocument, type RevisionData } from './quote-documents.ts';
import { lineView } from './quote-figures.ts';
import styles from './quote-sheet.module.css';
import { quoteMarks } from './quote-words.ts';
import { RecordAnswer } from './record-answer.tsx';
import { Revisions } from './revisions.tsx';
import { SendAgain } from './send-again.tsx';

/** The sheet of one quote. */
export function QuoteSheet({ id, notSent }: { id: string; notSent?: string | undefined }) {
  const viewer = useViewer();
  const client = useQueryClient();
  const quote = useQuery({
    queryKey: ['quote', id],
    queryFn: async () => (await request(QuoteSheetDocument, { id })).node,
  });
  const problem = viewer.error ?? quote.error;
  if (viewer.data !== undefined && quote.data?.__typename === 'Quote') {
    return <Drawn viewer={viewer.data} quote={quote.data} notSent={notSent} />;
  }
  return (
    <Sheet
      here="desk"
      viewer={viewer.data?.person ?? null}
      title="Quote"
      titleBlock={{ what: 'Quote', cells: [] }}
    >
      {problem !== null ? (
        <NoAnswer
          head="No quote to show"
          problem={problem}
          onAgain={() => void client.refetchQueries()}
          action={<Link href="/desk">All quotes</Link>}
        />
      ) : quote.data === undefined ? (
        <Loading>Fetching the quote</Loading>
      ) : (
        <ErrorNote head="No quote to show" action={<Link href="/desk">All quotes</Link>}>
          There is no such quote in this shop.
        </ErrorNote>
      )}
    </Sheet>
  );
}

function Drawn({
  viewer,
  quote,
  notSent,
}: {
  viewer: Viewer;
  quote: QuoteSheetData;
  notSent: string | undefined;
}) {
  const [newest] = quote.revisions;
  if (newest === undefined) return null;
  const { timeZone } = viewer.shop;
  const yes = newest.decisions.find(({ choice }) => choice === 'go_ahead');
  return (
    <Sheet
      here="desk"
      viewer={viewer.person}
      title={`Quote ${quote.number}`}
      titleBlock={{
        what: quote.title,
        cells: [
          { label: 'Aircraft', value: quote.aircraft.registration, figures: true },
          { label: 'Number', value: quote.number, figures: true },
          { label: 'Revision', value: newest.revision, figures: true },
          { label: 'For', value: quote.contact.name },
          { label: 'Drawn by', value: newest.draftedBy?.name ?? 'the program' },
          { label: 'Date', value: dayText(newest.draftedAt, timeZone), figures: true },
          {
            label: 'Holds until',
            value: calendarDateText(newest.expiresOn),
            figures: true,
            span: 'half',
          },
          { label: 'Shop', value: viewer.shop.name, span: 'half' },
        ],
      }}
    >
      <div className={styles.head}>
        <p className={styles.what}>
          {quote.title}, for {quote.contact.name}
        </p>
        <Hatch {...quoteMarks[quote.state]} />
      </div>
      {notSent === undefined || quote.state !== 'draft' ? null : (
        <ErrorNote head="Kept, not sent">{notSent}</ErrorNote>
      )}
      {quote.state === 'draft' || quote.state === 'sent'
        ? quote.endedExemptions.map((words) => <p key={words}>{words}</p>)
        : null}
      <QuoteBody
        more={quote.more}
        aircraft={quote.aircraft}
        lines={viewsOf(newest)}
        ceiling={yes?.ceiling == null ? undefined : BigInt(yes.ceiling)}
        figures={{
          currency: newest.currency,
          likely: BigInt(newest.likely),
          high: BigInt(newest.high),
          tax: BigInt(newest.tax),
          hours: newest.hours,
          withFindings: newest.withFindings ?? null,
          billedAs: newest.billedAs ?? null,
        }}
      />
      <LearnedBefore lines={newest.lines} />
      {newest.promise === null ? null : (
        <PromisePart promise={newest.promise} accepted={yes !== undefined} />
      )}
      {newest.terms === '' ? null : (
        <section className={styles.part}>
          <h2>Terms</h2>
          <p className={styles.terms}>{newest.terms}</p>
        </section>
      )}
      <Next quote={quote} newest={newest} />
      {quote.state === 'draft' ? null : (
        <OwnerLinks
          reaches={{ quoteId: quote.id }}
          contacts={quote.aircraft.contacts}
          shop={viewer.shop}
        />
      )}
      <Revisions revisions={quote.revisions} timeZone={timeZone} />
      {quote.revisions.some(({ modelNumber }) => modelNumber !== null) ? (
        <AskedAgain quoteId={quote.id} timeZone={timeZone} />
      ) : null}
    </Sheet>
  );
}

/** What comes next, by the state of the quote. */
function Next({ quote, newest }: { quote: QuoteSheetData; newest: RevisionData }) {
  const revise = (
    <ButtonLink href={`/desk/quotes/new?revise=${quote.id}`}>Make the next revision</ButtonLink>
  );
  const order =
    quote.order === null ? null : (
      <ButtonLink href={`/desk/orders/${quote.order.id}`}>Order {quote.order.number}</ButtonLink>
    );
  return (
    <section className={styles.part} data-screen-only="" aria-label="What comes next">
      {quote.state === 'draft' ? (
        <SendAgain
          quoteId={quote.id}
          revision={newest.revision}
          expiresOn={newest.expiresOn}
          contact={quote.contact}
        />
      ) : null}
      {quote.state === 'sent' ? <RecordAnswer quote={quote} newest={newest} /> : null}
      {quote.state === 'lapsed' ? (
        <p>
          It held until {calendarDateText(newest.expiresOn)} and can no longer be accepted: the next
          revision opens it again.
        </p>
      ) : null}
      <div className={styles.ways}>
        {quote.state === 'accepted' || quote.more ? null : revise}
        {order}
        <ButtonLink href={paperHref('quote', quote.id)}>PDF, A4</ButtonLink>
        <ButtonLink href={paperHref('quote', quote.id, 'letter')}>PDF, Letter</ButtonLink>
      </div>
    </section>
  );
}

export function viewsOf({ lines }: Pick<RevisionData, 'lines'>) {
  return lines.map((line) => lineView(line, { jasc: line.task?.jasc ?? null, part: line.part }));
}

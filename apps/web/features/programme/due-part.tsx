'use client';

import { useState } from 'react';
import { Button } from '../../components/Button.tsx';
import { Tick } from '../../components/Choice.tsx';
import { Empty } from '../../components/Empty.tsx';
import { ErrorNote } from '../../components/ErrorNote.tsx';
import { More } from '../../components/More.tsx';
import { request } from '../../graphql/request.ts';
import { clientId } from '../../lib/client-id.ts';
import { useDoing } from '../quoting/use-answer.ts';
import { AddDueForm } from './add-due-form.tsx';
import { CompliedForm } from './complied-form.tsx';
import { FeedPart } from './feed-part.tsx';
import styles from './programme.module.css';
import { type AircraftOnRecord, type DueLine, QuoteDueDocument } from './programme-documents.ts';
import { dueWords, kindWords, leftWords, projectionWords, stateWords } from './programme-words.ts';

/** What falls due, most pressing first; what is ticked goes onto one quote. */
export function DuePart({
  aircraft,
  quotes,
  adds,
  records,
}: {
  aircraft: AircraftOnRecord;
  quotes: boolean;
  adds: boolean;
  records: boolean;
}) {
  const { lines } = aircraft.due;
  const pressing = lines
    .filter(({ state, quotable }) => quotable && state !== 'ok')
    .map((line) => line.itemId);
  const [ticked, setTicked] = useState<readonly string[] | null>(null);
  const chosen = ticked ?? pressing;
  const owner =
    aircraft.contacts.find(({ capacity }) => capacity === 'owner') ?? aircraft.contacts[0];
  const [quoteId, setQuoteId] = useState('');
  const quote = useDoing(async (clientEventId: string) => {
    const answer = (
      await request(QuoteDueDocument, {
        input: {
          ...{ aircraftId: aircraft.id, contactId: owner?.contact.id ?? '', clientEventId },
          itemIds: [...chosen],
        },
      })
    ).quoteDue;
    if (answer.__typename === 'Quote') setQuoteId(answer.id);
    return answer;
  });
  return (
    <section className={styles.part} aria-labelledby="due">
      <h2 id="due">What falls due</h2>
      {lines.length === 0 ? (
        <Empty>
          Nothing is entered that falls due on {aircraft.registration}; an annual and a 100-hour are
          the usual first ones.
        </Empty>
      ) : (
        <ol className={styles.lines}>
          {lines.map((line) => (
            <DueRow
              key={line.itemId}
              line={line}
              records={records}
              {...(quotes && line.quotable
                ? {
                    ticked: chosen.includes(line.itemId),
                    onTick: (on: boolean) =>
                      setTicked(
                        on
                          ? [...chosen, line.itemId]
                          : chosen.filter((itemId) => itemId !== line.itemId),
                      ),
                  }
                : {})}
            />
          ))}
        </ol>
      )}
      {quote.error === null ? null : <ErrorNote head="Not quoted">{quote.error.message}</ErrorNote>}
      <div className={styles.row} data-screen-only="">
        {quotes && owner !== undefined && lines.some(({ quotable }) => quotable) ? (
          quoteId === '' ? (
            <Button
              kind="primary"
              disabled={chosen.length === 0}
              busy={quote.isPending ? 'Drafting' : undefined}
              onClick={() => quote.mutate(clientId())}
            >
              Quote what is ticked to {owner.contact.name}
            </Button>
          ) : (
            <a href={`/desk/quotes/${quoteId}`}>The drafted quote</a>
          )
        ) : null}
      </div>
      {adds ? (
        <>
          <More words="Add something that falls due">
            <AddDueForm aircraft={aircraft} />
          </More>
          <FeedPart aircraftId={aircraft.id} />
        </>
      ) : null}
    </section>
  );
}

function DueRow({
  line,
  records,
  ticked,
  onTick,
}: {
  line: DueLine;
  records: boolean;
  ticked?: boolean;
  onTick?: (on: boolean) => void;
}) {
  const { state, title, number, revision, kind, part, source } = line;
  const named = [title, number, revision].filter((word) => word !== '').join(' · ');
  return (
    <li className={styles.line}>
      <div className={styles.named}>
        {onTick === undefined ? (
          <p>{named}</p>
        ) : (
          <Tick
            name={`quote-${line.itemId}`}
            words={named}
            ticked={ticked ?? false}
            onTick={onTick}
          />
        )}
        <p className={styles.quiet}>
          {[kindWords[kind], part, source]
            .filter((word) => word != null && word !== '')
            .join(' · ')}
        </p>
      </div>
      <p className={styles.state} data-state={state ?? 'unknown'}>
        {state == null ? 'cannot be reckoned' : stateWords[state]}
      </p>
      <p className={styles.figures}>{dueWords(line)}</p>
      <p className={styles.figures}>{leftWords(line)}</p>
      <p className={styles.because}>
        {line.because}
        {projectionWords(line) === '' ? '' : `; ${projectionWords(line)}`}
      </p>
      {records ? (
        <div className={styles.because} data-screen-only="">
          <More words={`Record that ${title} was done`}>
            <CompliedForm line={line} />
          </More>
        </div>
      ) : null}
    </li>
  );
}

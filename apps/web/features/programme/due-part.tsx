'use client';

import { useState } from 'react';
import { Button } from '../../components/Button.tsx';
import { Empty } from '../../components/Empty.tsx';
import { ErrorNote } from '../../components/ErrorNote.tsx';
import { Select } from '../../components/Field.tsx';
import { More } from '../../components/More.tsx';
import { request } from '../../graphql/request.ts';
import { clientId } from '../../lib/client-id.ts';
import { useDoing } from '../quoting/use-answer.ts';
import { AddDueForm } from './add-due-form.tsx';
import { counters } from './count-fields.tsx';
import { DeferredPart } from './deferred-part.tsx';
import { DueRow } from './due-row.tsx';
import { FeedPart } from './feed-part.tsx';
import { FilePart } from './file-part.tsx';
import { packagesFor } from './inspection-packages.ts';
import { OpeningsPart } from './openings-part.tsx';
import styles from './programme.module.css';
import {
  AddDueToQuoteDocument,
  type AircraftOnRecord,
  type DueLine,
  QuoteDueDocument,
} from './programme-documents.ts';
import { TripPart } from './trip-part.tsx';

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
  const canQuote = (line: DueLine) =>
    line.quotable || packagesFor(aircraft.inspectionPackages, [line]).length > 0;
  const pressing = [
    ...lines.filter((line) => canQuote(line) && line.state !== 'ok').map((line) => line.itemId),
    ...aircraft.deferred.filter(({ quotable }) => quotable).map(({ findingId }) => findingId),
  ];
  const [ticked, setTicked] = useState<readonly string[] | null>(null);
  const chosen = ticked ?? pressing;
  const owner =
    aircraft.contacts.find(({ capacity }) => capacity === 'owner') ?? aircraft.contacts[0];
  const [quoteId, setQuoteId] = useState('');
  const named = {
    itemIds: lines.map(({ itemId }) => itemId).filter((each) => chosen.includes(each)),
    findingIds: aircraft.deferred
      .map(({ findingId }) => findingId)
      .filter((each) => chosen.includes(each)),
  };
  // An inspection is quoted by a package that is one; of several that would do, the nearest to the aircraft.
  const asked = lines.filter((line) => chosen.includes(line.itemId) && !line.quotable);
  const packs = packagesFor(aircraft.inspectionPackages, asked);
  const [packageId, setPackageId] = useState('');
  const pack = packs.find(({ id }) => id === packageId) ?? packs[0];
  const quote = useDoing(async (clientEventId: string) => {
    const answer = (
      await request(QuoteDueDocument, {
        input: {
          ...{ aircraftId: aircraft.id, contactId: owner?.contact.id ?? '', clientEventId },
          ...named,
          ...(pack && { packageId: pack.id }),
        },
      })
    ).quoteDue;
    if (answer.__typename === 'Quote') setQuoteId(answer.id);
    return answer;
  });
  const addTo = useDoing(async (draft: { quoteId: string; fromRevision: number }) => {
    const answer = (await request(AddDueToQuoteDocument, { input: { ...draft, ...named } }))
      .addDueToQuote;
    if (answer.__typename === 'Quote') setQuoteId(answer.id);
    return answer;
  });
  const onTick = (id: string, on: boolean) =>
    setTicked(on ? [...chosen, id] : chosen.filter((each) => each !== id));
  const quotable = lines.some(canQuote) || aircraft.deferred.some((each) => each.quotable);
  return (
    <section className={styles.part} aria-labelledby="due">
      <h2 id="due">What falls due</h2>
      {lines.length === 0 ? (
        <Empty>
          Nothing is entered that falls due on {aircraft.registration}; an annual and a 100-hour are
          the usual first ones.
        </Empty>
      ) : (
        <ol className={styles.lines} data-ticks={quotes ? '' : undefined}>
          {lines.map((line) => (
            <DueRow
              key={line.itemId}
              line={line}
              records={records}
              quotes={quotes}
              by={
                line.quotable
                  ? undefined
                  : packagesFor(aircraft.inspectionPackages, [line])[0]?.title
              }
              {...(quotes && canQuote(line)
                ? {
                    ticked: chosen.includes(line.itemId),
                    onTick: (on: boolean) => onTick(line.itemId, on),
                  }
                : {})}
            />
          ))}
        </ol>
      )}
      <DeferredPart
        deferred={aircraft.deferred}
        settles={records}
        {...(quotes ? { chosen, onTick } : {})}
      />
      {quotes ? (
        <OpeningsPart
          lines={lines}
          chosen={chosen}
          onTogether={(itemIds) => setTicked([...new Set([...chosen, ...itemIds])])}
        />
      ) : null}
      {quote.error === null ? null : <ErrorNote head="Not quoted">{quote.error.message}</ErrorNote>}
      {addTo.error === null ? null : <ErrorNote head="Not added">{addTo.error.message}</ErrorNote>}
      {quotes && packs.length > 1 && quoteId === '' ? (
        <div className={styles.pair} data-screen-only="">
          <Select
            label="Quoted by the package"
            options={packs.map(({ id, title }) => ({ value: id, words: title }))}
            value={pack?.id ?? ''}
            onChange={({ currentTarget: { value } }) => setPackageId(value)}
          />
        </div>
      ) : null}
      <div className={styles.row} data-screen-only="">
        {quotes && owner !== undefined && quotable ? (
          quoteId === '' ? (
            <>
              <Button
                kind="primary"
                disabled={chosen.length === 0}
                busy={quote.isPending ? 'Drafting' : undefined}
                onClick={() => quote.mutate(clientId())}
              >
                Quote what is ticked to {owner.contact.name}
              </Button>
              {aircraft.draftQuotes.map(({ id, number, title, revisions: [newest] }) => (
                <Button
                  key={id}
                  kind="plain"
                  disabled={chosen.length === 0}
                  busy={addTo.isPending ? 'Adding' : undefined}
                  onClick={() => addTo.mutate({ quoteId: id, fromRevision: newest?.revision ?? 1 })}
                >
                  Add what is ticked to draft {number}, {title}
                </Button>
              ))}
            </>
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
          <div className={styles.row} data-screen-only="">
            <a href={`/due/items/${encodeURIComponent(aircraft.id)}.csv`} download>
              Due list, CSV
            </a>
            <a href={`/due/items/${encodeURIComponent(aircraft.id)}.xlsx`} download>
              Due list, XLSX
            </a>
          </div>
        </>
      ) : null}
      {records ? (
        <div data-screen-only="">
          <More words="Take in a file of due items">
            <FilePart
              address={`/due/items/${encodeURIComponent(aircraft.id)}`}
              label="A file of due items"
              hint="CSV with the columns of the due list’s own CSV; title, kind, source and rule are needed"
              said={({ added }) => `${added ?? 0} items were added.`}
            />
          </More>
        </div>
      ) : null}
      <div data-screen-only="">
        <More words="If it goes on a trip">
          <TripPart
            aircraftId={aircraft.id}
            registration={aircraft.registration}
            counted={counters.filter((each) =>
              lines.some(({ countsAsked }) => countsAsked.includes(each)),
            )}
          />
        </More>
      </div>
    </section>
  );
}

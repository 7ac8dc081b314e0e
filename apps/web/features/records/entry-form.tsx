'use client';

import { useQuery } from '@tanstack/react-query';
import { useState } from 'react';
import { Button } from '../../components/Button.tsx';
import { Caution } from '../../components/Caution.tsx';
import { Choices, Tick } from '../../components/Choice.tsx';
import { Loading } from '../../components/Empty.tsx';
import { ErrorNote } from '../../components/ErrorNote.tsx';
import { Field, LongField } from '../../components/Field.tsx';
import { More } from '../../components/More.tsx';
import type {
  RecordBookKind,
  ReleaseOutcome,
  SignEntryInput,
} from '../../graphql/generated/graphql.ts';
import { request } from '../../graphql/request.ts';
import { auth } from '../../lib/auth.ts';
import { SaidNo, useDoing } from '../quoting/use-answer.ts';
import { type Entry, type EntryDraft, EntryDraftDocument } from './entry-documents.ts';
import { EntryText } from './entry-paper.tsx';
import { MissingList } from './missing-list.tsx';
import styles from './records.module.css';
import type { OrderToSign } from './records-documents.ts';
import { SignEntryDocument } from './records-mutations.ts';
import { nameOfBook } from './records-words.ts';

interface Book {
  id: string;
  kind: RecordBookKind;
  title: string;
}

/** An entry as it will be signed, what it lacks, and the signature: a deliberate act, one book at a time. */
export function EntryForm({
  order,
  book,
  corrects = null,
  inspector,
  onDone,
}: {
  order: OrderToSign;
  book: Book;
  /** The signed entry that is corrected. */
  corrects?: Entry | null;
  inspector: boolean;
  onDone?: () => void;
}) {
  const inspection = order.inspection != null;
  const [outcome, setOutcome] = useState<ReleaseOutcome | null>(inspection ? null : 'airworthy');
  const [extent, setExtent] = useState('');
  const [reason, setReason] = useState('');
  const [leaveOut, setLeaveOut] = useState<readonly string[]>([]);
  const [signature, setSignature] = useState('');
  const [password, setPassword] = useState('');
  const asked = {
    orderId: order.id,
    bookId: book.id,
    outcome,
    ...(extent.trim() === '' ? {} : { extent }),
    ...(leaveOut.length === 0 ? {} : { leaveOut: [...leaveOut] }),
    ...(corrects === null
      ? {}
      : { correctsId: corrects.id, reason: reason.trim() === '' ? 'to be said' : reason }),
  };
  const draft = useQuery({
    queryKey: ['entryDraft', asked],
    queryFn: async () => (await request(EntryDraftDocument, asked)).entryDraft,
    placeholderData: (before) => before,
  });
  const sign = useDoing(
    async (input: Omit<SignEntryInput, 'again'>) => {
      const { orderId, bookId, text } = input;
      const said = await auth<{ again: string }>('/auth/again', {
        orderId,
        bookId,
        text,
        password,
      });
      setPassword('');
      if ('sentence' in said) throw new SaidNo(said.sentence);
      const { again } = said.answer;
      return (await request(SignEntryDocument, { input: { ...input, again } })).signEntry;
    },
    () => {
      setSignature('');
      onDone?.();
    },
  );
  const entry = draft.data?.__typename === 'EntryDraft' ? draft.data : undefined;
  const text = entry?.text ?? null;
  const unsaid = corrects !== null && reason.trim().length < 3;
  return (
    <article className={styles.form} aria-label={`Entry for the ${nameOfBook(book)}`}>
      <h3>{corrects === null ? nameOfBook(book) : `Correction in the ${nameOfBook(book)}`}</h3>
      {entry?.rule === 'inspection' ? (
        <div data-screen-only="" className={styles.pair}>
          <Choices
            legend="The aircraft was found"
            name={`outcome-${book.id}`}
            value={outcome ?? ''}
            onChoose={(value) => setOutcome(value as ReleaseOutcome)}
            options={[
              {
                value: 'airworthy',
                words: 'Airworthy',
                note: 'approved for return to service, 14 CFR 43.11(a)(4)',
              },
              {
                value: 'not_airworthy_list_given',
                words: 'Not airworthy, list given',
                note: 'a lawful end, 14 CFR 43.11(a)(5)',
              },
            ]}
          />
          <LongField
            label="Extent of the inspection"
            hint="Left empty: as the shop’s list says, see the text below"
            rows={3}
            maxLength={500}
            value={extent}
            onChange={(event) => setExtent(event.currentTarget.value)}
          />
        </div>
      ) : null}
      {corrects === null ? null : (
        <div data-screen-only="">
          <Field
            label="What was wrong"
            hint="Stands in the new entry; the old one stays as it was signed"
            maxLength={1000}
            value={reason}
            onChange={(event) => setReason(event.currentTarget.value)}
          />
        </div>
      )}
      {entry?.choice === true ? (
        <WhichEngine entry={entry} leaveOut={leaveOut} onChange={setLeaveOut} />
      ) : null}
      {draft.error !== null ? (
        <ErrorNote head="No entry to show">{draft.error.message}</ErrorNote>
      ) : draft.data === undefined ? (
        <Loading>Composing the entry</Loading>
      ) : draft.data.__typename === 'Refusal' ? (
        <ErrorNote head="No entry to show">{draft.data.message}</ErrorNote>
      ) : null}
      {entry === undefined ? null : (
        <>
          <MissingList missing={entry.missing} />
          {text === null ? (
            // Not what anybody signs yet.
            <More words="What the entry says so far">
              <EntryText text={entry.described.join('\n')} unfinished />
            </More>
          ) : (
            <EntryText text={text} />
          )}
          {inspector && !entry.mayApprove ? (
            <ErrorNote head="Not yours to sign">{entry.because}</ErrorNote>
          ) : null}
          {inspector && entry.mayApprove && entry.missing.length === 0 && text !== null ? (
            <div data-screen-only="" className={styles.form}>
              <Caution hazards={entry.cautions} head="Before you sign" />
              <p>You sign as {entry.because}.</p>
              <Field
                label="Signature"
                hint={`Type your name in full, ${entry.signer}. What stands above is what you sign.`}
                autoComplete="off"
                maxLength={200}
                value={signature}
                onChange={(event) => setSignature(event.currentTarget.value)}
              />
              <Field
                label="Your password"
                hint="An entry is signed after signing in again, for this one entry. A PIN does not do."
                type="password"
                autoComplete="current-password"
                maxLength={128}
                value={password}
                onChange={(event) => setPassword(event.currentTarget.value)}
              />
              {sign.error === null ? null : (
                <ErrorNote head="Not signed">{sign.error.message}</ErrorNote>
              )}
              <div className={styles.row}>
                <Button
                  kind="primary"
                  disabled={
                    signature.trim() === '' || password === '' || unsaid || draft.isFetching
                  }
                  busy={sign.isPending ? 'Signing' : undefined}
                  onClick={() => sign.mutate({ ...asked, signature, text })}
                >
                  Sign this entry
                </Button>
                {onDone === undefined ? null : (
                  <Button kind="plain" onClick={onDone}>
                    Leave it as it was
                  </Button>
                )}
              </div>
            </div>
          ) : null}
          {inspector ? null : (
            <p className={styles.quiet}>
              An inspector signs, whose certificate covers the work. You can read it here.
            </p>
          )}
        </>
      )}
    </article>
  );
}

/** Where an aircraft has two books of a kind, what was done on the other engine is left out of this one. */
function WhichEngine({
  entry,
  leaveOut,
  onChange,
}: {
  entry: EntryDraft;
  leaveOut: readonly string[];
  onChange: (leaveOut: readonly string[]) => void;
}) {
  return (
    <fieldset className={styles.ticks} data-screen-only="">
      <legend className={styles.quiet}>
        This aircraft has more than one such book. Ticked items stand in this one.
      </legend>
      {entry.items.map(({ itemId, position, title }) => (
        <Tick
          key={itemId}
          name={`in-this-book-${position}`}
          words={`${position} ${title}`}
          ticked={!leaveOut.includes(itemId)}
          onTick={(ticked) =>
            onChange(ticked ? leaveOut.filter((id) => id !== itemId) : [...leaveOut, itemId])
          }
        />
      ))}
    </fieldset>
  );
}

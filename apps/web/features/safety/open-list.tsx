'use client';

import { type FormEvent, useState } from 'react';
import { Button } from '../../components/Button.tsx';
import { ErrorNote } from '../../components/ErrorNote.tsx';
import { Field } from '../../components/Field.tsx';
import { More } from '../../components/More.tsx';
import type { OpenLineEventKind } from '../../graphql/generated/graphql.ts';
import { dayAndTimeText } from '../../lib/figures/dates.ts';
import { useUnsentFacts } from './kept-facts.ts';
import { NoteOpenLine } from './note-open-line.tsx';
import { type LineNow, lineNamed, linesNow } from './open-now.ts';
import type { OpenOrder } from './order-documents.ts';
import styles from './safety.module.css';
import { closing, markWords } from './safety-words.ts';
import { useFact } from './use-fact.ts';

/** What was opened and taken off: each line is closed by one touch, by whoever closed it. */
export function OpenList({
  order,
  itemId = null,
  works,
  timeZone,
}: {
  order: OpenOrder;
  /** Lines of this item alone, and new ones noted for it. */
  itemId?: string | null;
  /** Whether the person works at aircraft, and this one is here. */
  works: boolean;
  timeZone: string;
}) {
  const facts = useUnsentFacts();
  const lines = linesNow(order.id, order.openLines, facts).filter(
    ({ item }) => itemId === null || item?.id === itemId,
  );
  const open = lines.filter(({ state }) => state === 'open');
  const over = lines.filter(({ state }) => state !== 'open');
  const rows = (each: readonly LineNow[]) => (
    <ul className={styles.lines}>
      {each.map((line) => (
        <Line key={line.id} line={line} works={works} timeZone={timeZone} />
      ))}
    </ul>
  );
  return (
    <>
      {open.length === 0 ? (
        <p className={styles.second}>No panel is open and no part is off, as far as is noted.</p>
      ) : (
        rows(open)
      )}
      {over.length === 0 ? null : <More words={`${over.length} closed`}>{rows(over)}</More>}
      {works ? <NoteOpenLine orderId={order.id} itemId={itemId} /> : null}
    </>
  );
}

function Line({ line, works, timeZone }: { line: LineNow; works: boolean; timeZone: string }) {
  const { kind, words, place, state } = line;
  const marking = useFact('markOpen');
  const { press, open } = closing[kind];
  const last = line.events.at(-1);
  const mark = (as: OpenLineEventKind, note?: string) =>
    marking.mutate({
      input: { ...lineNamed(line), kind: as, ...(note !== undefined && { note }) },
      words: `${words}: ${markWords(as, kind)}`,
    });
  return (
    <li className={styles.line}>
      <div>
        <p className={styles.what}>
          {words}
          {place === '' ? '' : `, ${place}`}
        </p>
        <p className={styles.second}>
          {open} by {line.by.name}, {dayAndTimeText(line.at, timeZone)}
          {line.item === null || line.item.position === 0 ? '' : `, item ${line.item.position}`}
          {last === undefined
            ? ''
            : `; ${markWords(last.kind, kind)} by ${last.by.name}, ${dayAndTimeText(last.at, timeZone)}`}
          {last === undefined || last.note === '' ? '' : `: ${last.note}`}
        </p>
        {line.unsent ? <p className={styles.second}>not sent yet</p> : null}
        {marking.error === null ? null : (
          <ErrorNote head="Not recorded">{marking.error.message}</ErrorNote>
        )}
      </div>
      {!works ? null : state === 'open' ? (
        <Button
          busy={marking.isPending ? 'Recording' : undefined}
          aria-label={`${press}: ${words}`}
          onClick={() => mark('closed')}
        >
          {press}
        </Button>
      ) : (
        <Button
          kind="plain"
          busy={marking.isPending ? 'Recording' : undefined}
          aria-label={`Open again: ${words}`}
          onClick={() => mark('reopened')}
        >
          Open again
        </Button>
      )}
      {works && state === 'open' ? (
        <details>
          <summary className={styles.summary}>
            <span>
              Noted by mistake<span className="spoken">: {words}</span>
            </span>
          </summary>
          <StrikeOut onStrike={(note) => mark('struck_out', note)} />
        </details>
      ) : null}
    </li>
  );
}

function StrikeOut({ onStrike }: { onStrike: (note: string) => void }) {
  const [note, setNote] = useState('');
  const [wrong, setWrong] = useState<string>();
  const strike = (event: FormEvent) => {
    event.preventDefault();
    const short = note.trim().length < 3;
    setWrong(short ? 'Say why it never was so.' : undefined);
    if (!short) onStrike(note);
  };
  return (
    <form className={styles.form} onSubmit={strike} noValidate>
      <Field
        label="Why it never was so"
        maxLength={500}
        wrong={wrong}
        value={note}
        onChange={(event) => setNote(event.currentTarget.value)}
      />
      <Button type="submit">Strike it out</Button>
    </form>
  );
}

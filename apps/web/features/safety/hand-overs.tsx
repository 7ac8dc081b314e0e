'use client';

import { type FormEvent, type ReactNode, useRef, useState } from 'react';
import { Button } from '../../components/Button.tsx';
import { ErrorNote } from '../../components/ErrorNote.tsx';
import { LongField } from '../../components/Field.tsx';
import { dayAndTimeText } from '../../lib/figures/dates.ts';
import { useUnsentFacts } from './kept-facts.ts';
import styles from './safety.module.css';
import { useFact } from './use-fact.ts';

interface Left {
  done: string;
  notDone: string;
  loose: string;
  at: string;
  by: { name: string };
  item: { position: number; title: string } | null;
}

/** What somebody left, before everything else, until whoever goes on with it says so. */
export function LeftHere({
  left: { done, notDone, loose, by, at, item },
  here,
  timeZone,
  children,
}: {
  left: Left;
  /** On the sheet of the item itself, which need not be named. */
  here: boolean;
  timeZone: string;
  /** How it is taken over. */
  children: ReactNode;
}) {
  const head = here
    ? 'Stopped here'
    : item === null
      ? 'Handed over'
      : `Stopped at item ${item.position}, ${item.title}`;
  return (
    <section className={styles.left} aria-label={head}>
      <h2>{head}</h2>
      <p>
        {by.name}, {dayAndTimeText(at, timeZone)}
      </p>
      <dl>
        {loose === '' ? null : (
          <div className={styles.loose}>
            <dt>Only finger tight, or loose</dt>
            <dd>{loose}</dd>
          </div>
        )}
        <div>
          <dt>Not done</dt>
          <dd>{notDone}</dd>
        </div>
        {done === '' ? null : (
          <div>
            <dt>Done</dt>
            <dd>{done}</dd>
          </div>
        )}
      </dl>
      {children}
    </section>
  );
}

export const takenOverWords = 'Taken over: I have read it';

/** What was left on an order, taken over at the shop. */
export function LeftOnOrder({
  left,
  works,
  timeZone,
}: {
  left: Left & { id: string };
  works: boolean;
  timeZone: string;
}) {
  const taking = useFact('takeOver');
  const taken = useUnsentFacts().some(
    ({ does, input }) => does === 'takeOver' && input.handOverId === left.id,
  );
  return (
    <LeftHere left={left} here={false} timeZone={timeZone}>
      {taking.error === null ? null : (
        <ErrorNote head="Not taken over">{taking.error.message}</ErrorNote>
      )}
      {taken ? <p>Taken over, not sent yet.</p> : null}
      {works && !taken ? (
        <Button
          size="bench"
          busy={taking.isPending ? 'Recording' : undefined}
          onClick={() => taking.mutate({ input: { handOverId: left.id }, words: 'Taken over' })}
        >
          {takenOverWords}
        </Button>
      ) : null}
    </LeftHere>
  );
}

/** What the shift leaves to the next on an aircraft. */
export function HandOverOrder({ orderId }: { orderId: string }) {
  const [round, setRound] = useState(0);
  const leaving = useFact('leave', () => setRound(round + 1));
  return (
    <LeaveWords
      key={round}
      press="Hand it over"
      busy={leaving.isPending}
      problem={leaving.error}
      onLeave={(words) =>
        leaving.mutate({ input: { ...words, orderId, itemId: null }, words: 'Handed over' })
      }
    />
  );
}

const nothingLeft = { done: '', notDone: '', loose: '' };
export type WordsLeft = typeof nothingLeft;

/** Words for whoever goes on: at an item where one stops, or on an aircraft at the end of a shift. */
export function LeaveWords({
  press,
  busy = false,
  problem = null,
  onLeave,
}: {
  /** On the button. */
  press: string;
  busy?: boolean;
  problem?: Error | null;
  onLeave: (words: WordsLeft) => void;
}) {
  const [words, setWords] = useState(nothingLeft);
  const [wrong, setWrong] = useState<string>();
  const first = useRef<HTMLTextAreaElement>(null);
  const leave = (event: FormEvent) => {
    event.preventDefault();
    const short = words.notDone.trim().length < 3;
    setWrong(short ? 'Say what is not done: it is what the next one has to know.' : undefined);
    if (short) {
      first.current?.focus();
      return;
    }
    onLeave(words);
  };
  const field = (key: keyof typeof words) => ({
    value: words[key],
    onChange: (event: { currentTarget: HTMLTextAreaElement }) =>
      setWords({ ...words, [key]: event.currentTarget.value }),
  });
  return (
    <form className={styles.form} onSubmit={leave} noValidate>
      <LongField
        label="What is not done"
        ref={first}
        rows={3}
        maxLength={2000}
        wrong={wrong}
        {...field('notDone')}
      />
      <LongField
        label="What is only finger tight, or loose"
        hint="Which fastener, where."
        rows={2}
        maxLength={500}
        {...field('loose')}
      />
      <LongField label="What is done" rows={2} maxLength={2000} {...field('done')} />
      {problem === null ? null : <ErrorNote head="Not left">{problem.message}</ErrorNote>}
      <Button size="bench" type="submit" busy={busy ? 'Recording' : undefined}>
        {press}
      </Button>
    </form>
  );
}

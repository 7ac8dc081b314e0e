'use client';

import { type FormEvent, useState } from 'react';
import { Button } from '../../components/Button.tsx';
import { ErrorNote } from '../../components/ErrorNote.tsx';
import { Field } from '../../components/Field.tsx';
import { clientId } from '../../lib/client-id.ts';
import { clockText } from '../../lib/figures/hours.ts';
import { wallOf } from '../../lib/shop-time.ts';
import styles from './bench.module.css';
import { correctionOf } from './clock-correction.ts';
import type { ItemOnSheet } from './item-documents.ts';
import type { ChangeItem } from './use-change-item.ts';

/** Better times for a stretch of one's own. What was recorded first stays; what follows is said before. */
export function CorrectClock({
  stretch,
  itemId,
  timeZone,
  correcting,
}: {
  stretch: ItemOnSheet['stretches'][number];
  itemId: string;
  timeZone: string;
  correcting: ChangeItem;
}) {
  const [from, setFrom] = useState(() => wallOf(String(stretch.startedAt), timeZone));
  const [to, setTo] = useState(() =>
    stretch.endedAt === null ? '' : wallOf(String(stretch.endedAt), timeZone),
  );
  const [reason, setReason] = useState('');
  const [asked, setAsked] = useState(false);
  const runs = stretch.endedAt === null;
  const correction = correctionOf(
    { ...stretch, startedAt: String(stretch.startedAt), endedAt: stretch.endedAt as string | null },
    from,
    to,
    timeZone,
  );
  const ends = 'ends' in correction ? correction.ends : [];
  const unsaid =
    asked && reason.trim().length < 3 ? 'Say why: it stays with the new time.' : undefined;
  const next =
    stretch.ended !== null && stretch.ended.kind !== 'stop' && stretch.ended.item?.id !== itemId
      ? stretch.ended.item
      : null;
  const correct = (event: FormEvent) => {
    event.preventDefault();
    setAsked(true);
    if (ends.length === 0 || reason.trim().length < 3) return;
    correcting.mutate({
      kind: 'correct',
      inputs: ends.map((end) => ({ ...end, reason, clientEventId: clientId() })),
    });
  };
  return (
    <form className={styles.form} onSubmit={correct} noValidate>
      <div className={styles.two}>
        <Field
          label="It began"
          type="datetime-local"
          value={from}
          onChange={(event) => setFrom(event.currentTarget.value)}
        />
        {runs ? null : (
          <Field
            label="It ended"
            type="datetime-local"
            wrong={'wrong' in correction ? correction.wrong : undefined}
            value={to}
            onChange={(event) => setTo(event.currentTarget.value)}
          />
        )}
      </div>
      <Field
        label="Why"
        maxLength={500}
        wrong={unsaid}
        value={reason}
        onChange={(event) => setReason(event.currentTarget.value)}
      />
      <ul className={styles.follows} aria-label="What follows from it">
        {'seconds' in correction && correction.seconds !== null && ends.length > 0 ? (
          <li>
            <span className={styles.figures}>{clockText(stretch.seconds)}</span> h becomes{' '}
            <span className={styles.figures}>{clockText(correction.seconds)}</span> h.
          </li>
        ) : null}
        <li>The first time stays on record, with the new one, your name and your reason.</li>
        <li>The cost, the invoice still to come and later estimates count the new one.</li>
        {stretch.began?.kind === 'switch' ? (
          <li>What you were on before ends when this begins.</li>
        ) : null}
        {next === null ? null : <li>{next.title} begins when this ends.</li>}
      </ul>
      {correcting.error ? (
        <ErrorNote head="Not corrected">{correcting.error.message}</ErrorNote>
      ) : null}
      <Button
        type="submit"
        size="bench"
        disabled={ends.length === 0}
        busy={correcting.isPending ? 'Sending' : undefined}
      >
        Correct the clock
      </Button>
    </form>
  );
}

'use client';

import { type FormEvent, useState } from 'react';
import { Button } from '../../components/Button.tsx';
import { Field, Select } from '../../components/Field.tsx';
import { clockText } from '../../lib/figures/hours.ts';
import { wallOf } from '../../lib/shop-time.ts';
import styles from './bench.module.css';
import { correctionOf } from './clock-correction.ts';
import type { ItemOnSheet } from './item-documents.ts';
import type { ClockCorrected } from './use-bench.ts';

/** Better times for a stretch of one's own. What was recorded first stays; what follows is said before. */
export function CorrectClock({
  stretch,
  itemId,
  timeZone,
  supervisors,
  onCorrect,
}: {
  stretch: ItemOnSheet['stretches'][number];
  itemId: string;
  timeZone: string;
  /** Under whom its person may have worked; empty where they work by themselves. */
  supervisors: readonly { id: string; name: string }[];
  onCorrect: (ends: readonly ClockCorrected[]) => void;
}) {
  const [from, setFrom] = useState(() => wallOf(String(stretch.startedAt), timeZone));
  const [to, setTo] = useState(() =>
    stretch.endedAt === null ? '' : wallOf(String(stretch.endedAt), timeZone),
  );
  const [under, setUnder] = useState(stretch.supervisedBy?.id ?? '');
  const [reason, setReason] = useState('');
  const [asked, setAsked] = useState(false);
  const [noted, setNoted] = useState(false);
  const runs = stretch.endedAt === null;
  const correction = correctionOf(
    { ...stretch, startedAt: String(stretch.startedAt), endedAt: stretch.endedAt as string | null },
    from,
    to,
    timeZone,
    supervisors.length === 0 ? undefined : under || null,
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
    setNoted(true);
    onCorrect(ends.map((end) => ({ ...end, reason })));
  };
  if (noted) return <p role="status">Noted. It counts when the shop has it.</p>;
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
      {supervisors.length === 0 ? null : (
        <Select
          label="Under whose supervision"
          options={[
            { value: '', words: 'Nobody’s' },
            ...supervisors.map(({ id, name }) => ({ value: id, words: name })),
          ]}
          value={under}
          onChange={(event) => setUnder(event.currentTarget.value)}
        />
      )}
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
      <Button type="submit" size="bench" disabled={ends.length === 0}>
        Correct the clock
      </Button>
    </form>
  );
}

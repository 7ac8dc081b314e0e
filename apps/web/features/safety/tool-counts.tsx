'use client';

import { type FormEvent, useState } from 'react';
import { Button } from '../../components/Button.tsx';
import { ErrorNote } from '../../components/ErrorNote.tsx';
import { Field, LongField } from '../../components/Field.tsx';
import { dayAndTimeText } from '../../lib/figures/dates.ts';
import { CountOut } from './count-out.tsx';
import { countsNow } from './counts-now.ts';
import type { FactInputs } from './facts.ts';
import { useUnsentFacts } from './kept-facts.ts';
import type { CountState, OpenOrder } from './order-documents.ts';
import styles from './safety.module.css';
import { useFact } from './use-fact.ts';

/** Tools and rags: what went out to the aircraft, and the count back that has to agree before anybody signs. */
export function ToolCounts({
  order,
  itemId = null,
  works,
  mayAccount,
  timeZone,
}: {
  order: OpenOrder;
  /** The count of this item alone. */
  itemId?: string | null;
  works: boolean;
  /** An inspector or the manager. */
  mayAccount: boolean;
  timeZone: string;
}) {
  const counting = useFact('count');
  const tell = (input: Omit<FactInputs['count'], 'orderId'>, words: string) =>
    counting.mutate({ input: { ...input, orderId: order.id }, words });
  const shown = countsNow(order.id, order.toolCounts, useUnsentFacts()).filter(
    (count) => itemId === null || count.itemId === itemId,
  );
  const open = shown.filter(({ agrees }) => !agrees);
  const nameOf = (id: string | null) => {
    const item = order.items.find((each) => each.id === id);
    return item === undefined ? 'The order' : `Item ${item.position}, ${item.title}`;
  };
  return (
    <>
      {shown.length === 0 ? (
        <p className={styles.second}>Nothing is counted out.</p>
      ) : open.length === 0 ? (
        <p>
          All that went out is back
          {shown.map(({ lastBy, lastAt }) => `: ${lastBy}, ${dayAndTimeText(lastAt, timeZone)}`)[0]}
          {shown.some(({ unsent }) => unsent) ? '; not sent yet' : ''}.
        </p>
      ) : null}
      {open.map((count) => (
        <section key={count.itemId ?? ''} className={styles.part}>
          <h3>{nameOf(count.itemId)}</h3>
          <CountBack
            key={`${count.lastAt}`}
            count={count}
            works={works}
            mayAccount={mayAccount}
            busy={counting.isPending}
            onCount={(lines) =>
              tell({ kind: 'back', itemId: count.itemId, lines: [...lines] }, 'Counted back')
            }
            onAccount={(note) =>
              tell(
                { kind: 'accounted_for', itemId: count.itemId, lines: [], note },
                'Accounted for',
              )
            }
          />
          <p className={styles.second}>
            Last counted by {count.lastBy}, {dayAndTimeText(count.lastAt, timeZone)}
            {count.unsent ? '; not sent yet' : ''}
          </p>
        </section>
      ))}
      {counting.error === null ? null : (
        <ErrorNote head="Not counted">{counting.error.message}</ErrorNote>
      )}
      {works ? (
        <CountOut
          busy={counting.isPending}
          onCount={(lines) => tell({ kind: 'out', itemId, lines: [...lines] }, 'Counted out')}
        />
      ) : null}
    </>
  );
}

function CountBack({
  count,
  works,
  mayAccount,
  busy,
  onCount,
  onAccount,
}: {
  count: CountState;
  works: boolean;
  mayAccount: boolean;
  busy: boolean;
  onCount: (lines: readonly { name: string; number: number }[]) => void;
  onAccount: (note: string) => void;
}) {
  const [found, setFound] = useState<Record<string, string>>({});
  const [wrong, setWrong] = useState<string>();
  const counted = count.names.some(({ back }) => back !== null);
  const send = (event: FormEvent) => {
    event.preventDefault();
    const lines = count.names.map(({ name }) => ({ name, number: found[name]?.trim() ?? '' }));
    const missing = lines.find(({ number }) => !/^\d{1,3}$/.test(number));
    setWrong(missing === undefined ? undefined : `Count ${missing.name} too, 0 if there is none.`);
    if (missing === undefined)
      onCount(lines.map(({ name, number }) => ({ name, number: Number(number) })));
  };
  const facts = (
    <ul className={styles.lines}>
      {count.names.map(({ name, out, back }) => (
        <li key={name} className={styles.line}>
          <span className={styles.what}>{name}</span>
          <span className={back !== null && back !== out ? styles.oxide : undefined}>
            <span className={styles.figures}>{out}</span> out,{' '}
            {back === null ? 'not counted back' : <span className={styles.figures}>{back}</span>}
            {back === null ? '' : ' back'}
          </span>
        </li>
      ))}
    </ul>
  );
  return (
    <>
      {counted ? (
        <p className={styles.oxide}>The count does not agree. Nothing is signed until it does.</p>
      ) : null}
      {facts}
      {works ? (
        <form className={styles.form} onSubmit={send} noValidate aria-label="Count back">
          <div className={styles.two}>
            {count.names.map(({ name }) => (
              <Field
                key={name}
                label={`${name}, back`}
                figures
                inputMode="numeric"
                maxLength={3}
                value={found[name] ?? ''}
                onChange={(event) => setFound({ ...found, [name]: event.currentTarget.value })}
              />
            ))}
          </div>
          {wrong === undefined ? null : <ErrorNote>{wrong}</ErrorNote>}
          <Button type="submit" busy={busy ? 'Recording' : undefined}>
            Count back
          </Button>
        </form>
      ) : null}
      {counted && mayAccount ? <Account onAccount={onAccount} /> : null}
    </>
  );
}

function Account({ onAccount }: { onAccount: (note: string) => void }) {
  const [note, setNote] = useState('');
  const [wrong, setWrong] = useState<string>();
  const send = (event: FormEvent) => {
    event.preventDefault();
    const short = note.trim().length < 10;
    setWrong(short ? 'Say where it is, or what became of it: ten letters or more.' : undefined);
    if (!short) onAccount(note);
  };
  return (
    <details>
      <summary className={styles.summary}>What is missing is accounted for</summary>
      <form className={styles.form} onSubmit={send} noValidate>
        <LongField
          label="Where it is, and who saw it"
          rows={3}
          maxLength={500}
          wrong={wrong}
          value={note}
          onChange={(event) => setNote(event.currentTarget.value)}
        />
        <Button type="submit">Account for it by name</Button>
      </form>
    </details>
  );
}

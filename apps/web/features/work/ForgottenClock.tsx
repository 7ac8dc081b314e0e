'use client';

import { type FormEvent, type ReactNode, useId, useState } from 'react';
import { Button } from '../../components/Button.tsx';
import { Choices } from '../../components/Choice.tsx';
import { Field } from '../../components/Field.tsx';
import { instantOf, wallOf } from '../../lib/shop-time.ts';
import { useShopNow } from '../../lib/use-shop-now.ts';
import type { Forgotten } from './bench-documents.ts';
import { ForgottenLine } from './ForgottenLine.tsx';
import styles from './forgotten.module.css';
import {
  answerOf,
  LEFT_RUNNING,
  rememberedAt,
  suggestionWords,
  whyWords,
} from './forgotten-words.ts';

interface Asked {
  clock: Forgotten;
  timeZone: string;
  onAnswer: (said: { stoppedAt: string | null; reason: string }) => void;
}

/** Asks somebody about a clock of their own that looks forgotten. Nothing waits for the answer. */
export function MyForgottenClock(props: Asked): ReactNode {
  const { item } = props.clock;
  const heading = useId();
  const now = useShopNow();
  return (
    <section className={styles.asked} aria-labelledby={heading}>
      <div className={styles.head}>
        <h2 id={heading}>Was this clock left running?</h2>
        <p className={styles.what}>{item.title}</p>
        <p className={styles.second}>
          {item.order.aircraft.registration}, order {item.order.number}
        </p>
        <p>
          {whyWords(props.clock, 'your', now)} It counts until you say; start on anything meanwhile.
        </p>
      </div>
      <ForgottenLine clock={props.clock} timeZone={props.timeZone} now={now} />
      <AnswerForm {...props} whose="your" />
    </section>
  );
}

/** When they really stopped, or that the clock is right, with the reason. */
export function AnswerForm({
  clock,
  timeZone,
  onAnswer,
  whose,
}: Asked & { whose: 'your' | 'their' }) {
  const now = useShopNow();
  const name = useId();
  const { suggestions, startedAt, endedAt } = clock;
  const [chosen, setChosen] = useState(() =>
    suggestions.length === 0 ? 'another' : String(suggestions.at(-1)?.at),
  );
  const [another, setAnother] = useState(() => wallOf(String(endedAt ?? startedAt), timeZone));
  const [typed, setTyped] = useState<string>();
  const [asked, setAsked] = useState(false);
  const reason = typed ?? (chosen === 'right' ? '' : LEFT_RUNNING);
  const answer = answerOf(clock, chosen, read(another, timeZone), reason, now);
  const wrong = asked && 'wrong' in answer ? answer : undefined;
  const send = (event: FormEvent) => {
    event.preventDefault();
    setAsked(true);
    if (!('wrong' in answer)) onAnswer(answer);
  };
  return (
    <form className={styles.form} onSubmit={send} noValidate>
      <Choices
        legend={whose === 'your' ? 'When did you really stop?' : 'When did they really stop?'}
        name={name}
        options={[
          ...suggestions.map((suggestion, index) => ({
            value: String(suggestion.at),
            words: `${index + 1} · ${rememberedAt(String(suggestion.at), timeZone)}`,
            note: suggestionWords(suggestion, whose, timeZone),
          })),
          { value: 'another', words: 'At another time' },
          { value: 'right', words: 'It is right: the work went on' },
        ]}
        value={chosen}
        onChoose={setChosen}
      />
      {chosen === 'another' ? (
        <Field
          label="Stopped"
          type="datetime-local"
          min={wallOf(String(startedAt), timeZone)}
          wrong={wrong?.wrong === 'time' ? wrong.words : undefined}
          value={another}
          onChange={(event) => setAnother(event.currentTarget.value)}
        />
      ) : null}
      <Field
        label="Why"
        hint="It stays with the answer. What was recorded first stays too."
        maxLength={500}
        wrong={wrong?.wrong === 'reason' ? wrong.words : undefined}
        value={reason}
        onChange={(event) => setTyped(event.currentTarget.value)}
      />
      <Button type="submit" kind="primary" size="bench">
        {chosen === 'right' ? 'It is right' : 'That is when it stopped'}
      </Button>
    </form>
  );
}

function read(typed: string, timeZone: string): string | null {
  try {
    return instantOf(typed, timeZone);
  } catch {
    return null;
  }
}

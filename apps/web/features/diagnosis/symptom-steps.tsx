'use client';

import {
  type AircraftKind,
  answersInOrder,
  nextQuestion,
  type Question,
  type Sighting,
  symptomOf,
  tables,
} from '@fairlead/diagnosis';
import { type ReactNode, useEffect, useRef, useState } from 'react';
import { Button } from '../../components/Button.tsx';
import { ChoicePress } from '../../components/Choice.tsx';
import { More } from '../../components/More.tsx';
import styles from './diagnosis.module.css';

/** So many answers stand on the sheet at once; the rest is one touch away. */
const AT_ONCE = 6;

/** What is seen, asked in steps: one question at a time, the answers to be expected first. Works without a network. */
export function SymptomSteps({
  aircraft,
  sighting,
  onSighting,
  busy = false,
}: {
  aircraft: AircraftKind | undefined;
  sighting: Sighting | null;
  onSighting: (sighting: Sighting | null) => void;
  busy?: boolean;
}) {
  const [back, setBack] = useState<string | null>(null);
  const [skipped, setSkipped] = useState<ReadonlySet<string>>(new Set());
  if (sighting === null)
    return (
      <Step key="symptom" legend="What do you notice?">
        {tables.symptoms.map(({ id, name, hint }) => (
          <ChoicePress
            key={id}
            type="button"
            words={name}
            note={hint}
            disabled={busy}
            onPress={() => onSighting({ symptom: id, seen: {}, aircraft })}
          />
        ))}
      </Step>
    );
  const symptom = symptomOf(tables, sighting.symptom);
  const question =
    symptom.questions.find(({ id }) => id === back) ?? nextQuestion(tables, sighting, skipped);
  const answer = (id: string, given: string) => {
    setBack(null);
    onSighting({ ...sighting, seen: { ...sighting.seen, [id]: given } });
  };
  return (
    <div className={styles.steps}>
      <ul className={styles.answered}>
        <Answered
          asks="What do you notice?"
          words={symptom.name}
          onChange={() => {
            setBack(null);
            setSkipped(new Set());
            onSighting(null);
          }}
        />
        {symptom.questions.flatMap(({ id, asks, answers }) => {
          const given = answers.find((one) => one.id === sighting.seen[id]);
          return given ? (
            <Answered
              key={id}
              asks={asks}
              words={given.words}
              onChange={() => {
                const { [id]: _, ...seen } = sighting.seen;
                setBack(id);
                onSighting({ ...sighting, seen });
              }}
            />
          ) : (
            []
          );
        })}
      </ul>
      {question === null ? (
        <p className={styles.second}>Nothing more to look at would tell; checks may.</p>
      ) : (
        <Step key={question.id} legend={question.asks}>
          <Answers
            question={question}
            sighting={sighting}
            busy={busy}
            onAnswer={(given) => answer(question.id, given)}
          />
          <Button
            size="bench"
            kind="plain"
            onClick={() => {
              setBack(null);
              setSkipped(new Set([...skipped, question.id]));
            }}
          >
            Not known: the next
          </Button>
        </Step>
      )}
    </div>
  );
}

function Answers({
  question,
  sighting,
  busy,
  onAnswer,
}: {
  question: Question;
  sighting: Sighting;
  busy: boolean;
  onAnswer: (answer: string) => void;
}) {
  const all = answersInOrder(tables, sighting, question.id);
  const first = all.length <= AT_ONCE + 2 ? all : all.slice(0, AT_ONCE);
  const rest = all.slice(first.length);
  const row = ({ id, words }: (typeof all)[number]) => (
    <ChoicePress
      key={id}
      type="button"
      words={words}
      disabled={busy}
      onPress={() => onAnswer(id)}
    />
  );
  return (
    <>
      {first.map(row)}
      {rest.length === 0 ? null : (
        <More words={`${rest.length} other answers`}>{rest.map(row)}</More>
      )}
    </>
  );
}

function Answered({
  asks,
  words,
  onChange,
}: {
  asks: string;
  words: string;
  onChange: () => void;
}) {
  return (
    <li>
      <span>
        <small>{asks}</small> {words}
      </span>
      <button type="button" className={styles.change} onClick={onChange}>
        Change<span className="spoken">: {asks}</span>
      </button>
    </li>
  );
}

/** One question. What was pressed is gone, so the next question takes the focus. */
function Step({ legend, children }: { legend: string; children: ReactNode }) {
  const head = useRef<HTMLLegendElement>(null);
  useEffect(() => {
    // Only where a press led here: a page that opens keeps its own focus.
    if (document.activeElement === document.body) return;
    head.current?.focus({ preventScroll: true });
  }, []);
  return (
    <fieldset className={styles.step}>
      <legend ref={head} tabIndex={-1}>
        {legend}
      </legend>
      {children}
    </fieldset>
  );
}

'use client';

import { Caution } from '../../components/Caution.tsx';
import { ChoicePress } from '../../components/Choice.tsx';
import styles from './diagnosis.module.css';
import { chanceText, type LookShown } from './shown.ts';

/** What would tell most for its minutes, and what each outcome would mean. An outcome pressed is an answer given. */
export function NextLook({
  look,
  onAnswer,
  busy = false,
}: {
  look: LookShown;
  onAnswer: (question: string, answer: string) => void;
  busy?: boolean;
}) {
  const { question, asks, how, minutes, outcomes, cautions } = look;
  return (
    <details className={styles.look}>
      <summary className={styles.lookHead}>
        <span>{asks}</span>
        <span className={styles.second}>about {minutes} min</span>
      </summary>
      <div className={styles.body}>
        {how === null ? null : <p>{how}</p>}
        {cautions.length === 0 ? null : (
          <Caution hazards={cautions}>The maker’s current manual governs.</Caution>
        )}
        <fieldset className={styles.outcomes}>
          <legend>How did it come out?</legend>
          {outcomes.map(({ answer, words, pointsTo, pointsProbability }) => (
            <ChoicePress
              key={answer}
              type="button"
              words={words}
              note={`then likeliest: ${pointsTo}, ${chanceText(pointsProbability)}`}
              disabled={busy}
              onPress={() => onAnswer(question, answer)}
            />
          ))}
        </fieldset>
      </div>
    </details>
  );
}

/** The best of what is left to check, the best first. */
export function NextLooks({
  looks,
  onAnswer,
  busy = false,
}: {
  looks: readonly LookShown[];
  onAnswer: (question: string, answer: string) => void;
  busy?: boolean;
}) {
  const checks = looks.filter(({ kind }) => kind === 'check');
  if (checks.length === 0) return null;
  return (
    <section className={styles.part} aria-label="What to check next">
      <h3>What to check next</h3>
      <p className={styles.second}>What is expected to tell most for its minutes comes first.</p>
      {checks.map((look) => (
        <NextLook key={look.question} look={look} onAnswer={onAnswer} busy={busy} />
      ))}
    </section>
  );
}

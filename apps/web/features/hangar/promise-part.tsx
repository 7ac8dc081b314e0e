import { sayCivilDay } from '@fairlead/hangar';
import { DayDimension } from '../../components/DayDimension.tsx';
import { ExpectedForm } from './expected-form.tsx';
import styles from './promise.module.css';
import type { PromiseData } from './promise-shown.ts';

/** "When do I get it back?", under a quote's total. */
export function PromisePart({
  promise,
  accepted = false,
  parts = [],
}: {
  promise: PromiseData;
  /** The quote was accepted: the order's own day counts from now on. */
  accepted?: boolean;
  /** What it offers of the catalogue: where one has to come first, its day is noted here. */
  parts?: readonly { id: string; title: string }[];
}) {
  const missing = parts.filter(({ title }) =>
    promise.waits.some(({ words }) => words.includes(`“${title}”`)),
  );
  return (
    <section className={styles.part} aria-label="When it is ready">
      <DayDimension
        promise={promise}
        label={`Ready, if accepted and begun on ${sayCivilDay(promise.beginsOn, promise.beginsOn)}`}
      />
      <p className={styles.how}>
        {accepted
          ? 'As it was said when this was drafted; the order says it anew as work goes on.'
          : 'From the hours, who is in, at most two at once on one aircraft, and other work that was promised. What is found on the way comes on top.'}
      </p>
      {missing.length === 0 ? null : (
        <ExpectedForm
          which="Which part"
          words="Note when the part is expected"
          things={missing.map(({ id, title }) => ({
            id,
            words: title,
            of: { partId: id },
            waits: true,
          }))}
        />
      )}
    </section>
  );
}

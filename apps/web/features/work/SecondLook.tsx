'use client';

import { Button } from '../../components/Button.tsx';
import { ErrorNote } from '../../components/ErrorNote.tsx';
import { dayAndTimeText } from '../../lib/figures/dates.ts';
import styles from './bench.module.css';
import { outbox } from './outbox.ts';
import type { SecondLookNow } from './second-look.ts';

/**
 * The second pair of eyes: one deliberate press by somebody who did not do the work. It names the first initial that it was
 * given after, so that the shop, however late it hears of it, counts it only for the item as it stood then.
 */
export function SecondLook({
  look,
  timeZone,
  onLook,
}: {
  look: SecondLookNow | null;
  timeZone: string;
  onLook: (firstId: string) => void;
}) {
  if (look === null) return null;
  return (
    <section className={styles.form} aria-label="Second look">
      {look.stands === 'noted' ? (
        <p>
          You gave the second look, {dayAndTimeText(look.at, timeZone)}: not sent yet. It counts
          when the shop has it.
        </p>
      ) : look.stands === 'refused' ? (
        <>
          <ErrorNote head="Your second look did not count">{look.entry.refused}</ErrorNote>
          {look.wanted ? <p>It still wants a second pair of eyes.</p> : null}
          <Button size="bench" onClick={() => outbox.discard(look.entry)}>
            Understood
          </Button>
        </>
      ) : (
        <p>{look.words}</p>
      )}
      {look.stands === 'open' ? (
        <Button size="bench" onClick={() => onLook(look.firstId)}>
          I looked at it, and it is right
        </Button>
      ) : null}
    </section>
  );
}

'use client';

import { Button } from '../../components/Button.tsx';
import { ErrorNote } from '../../components/ErrorNote.tsx';
import styles from './bench.module.css';
import type { ItemOnSheet } from './item-documents.ts';
import { useSecondLook } from './use-second-look.ts';

/** What happened since the item was last done, as far as the second look of a critical item goes. */
export function secondLookOf(
  { critical, state, events, stretches }: ItemOnSheet,
  personId: string,
) {
  if (!critical || state !== 'done') return null;
  const done = events.findLastIndex(({ kind }) => kind === 'done');
  const since = events.slice(Math.max(0, done));
  const first = since.find(({ kind }) => kind === 'initialled');
  if (first === undefined)
    return {
      words: 'Critical: after the first initials it wants a second pair of eyes.',
      open: false,
    };
  const worked =
    stretches.some(({ person }) => person.id === personId) || since[0]?.by.id === personId;
  if (worked || first.by.id === personId)
    return {
      words: `Critical: it wants a second pair of eyes, and not yours: you ${worked ? 'worked on it' : 'gave the first initials'}.`,
      open: false,
    };
  return {
    words: `Critical: ${first.by.name} gave the first initials. It wants a second, independent look: yours may be it.`,
    open: true,
  };
}

/**
 * The second pair of eyes: one deliberate press by somebody who did not do the work. Never kept for later: it vouches for
 * the item as it stands at that moment, which a device that is away does not know.
 */
export function SecondLook({ item, personId }: { item: ItemOnSheet; personId: string }) {
  const looking = useSecondLook();
  const look = secondLookOf(item, personId);
  if (look === null) return null;
  return (
    <section className={styles.form} aria-label="Second look">
      <p>{look.words}</p>
      {look.open ? (
        <Button
          size="bench"
          busy={looking.isPending ? 'Sending' : undefined}
          onClick={() => looking.mutate(item.id)}
        >
          I looked at it, and it is right
        </Button>
      ) : null}
      {looking.error ? <ErrorNote head="Not said">{looking.error.message}</ErrorNote> : null}
    </section>
  );
}

'use client';

import { useState } from 'react';
import { Button } from '../../components/Button.tsx';
import { ErrorNote } from '../../components/ErrorNote.tsx';
import { auth } from '../../lib/auth.ts';
import styles from './badge.module.css';

/** A badge to print, once: its code is told only now, and takes the one before it back. */
export function BadgePart({ person }: { person: { id: string; name: string; initials: string } }) {
  const [svg, setSvg] = useState<string | null>(null);
  const [sentence, setSentence] = useState<string | null>(null);
  async function make() {
    const said = await auth<{ svg: string }>('/auth/badge', { personId: person.id });
    setSvg('answer' in said ? said.answer.svg : null);
    setSentence('sentence' in said ? said.sentence : null);
  }
  return (
    <div className={styles.badgePart}>
      {svg === null ? (
        <Button onClick={() => void make()}>Make {person.name} a badge</Button>
      ) : (
        <>
          <figure className={styles.badge} data-badge="">
            <img
              src={`data:image/svg+xml;base64,${btoa(svg)}`}
              alt={`Code of ${person.name}’s badge`}
            />
            <figcaption>
              <span className={styles.initials}>{person.initials}</span>
              {person.name}
            </figcaption>
          </figure>
          <p>It is shown only now; a badge made before opens nothing any more.</p>
          <Button onClick={() => window.print()}>Print the badge</Button>
        </>
      )}
      {sentence === null ? null : <ErrorNote head="No badge">{sentence}</ErrorNote>}
    </div>
  );
}

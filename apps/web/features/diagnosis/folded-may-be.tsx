'use client';

import { lazy, Suspense, useState } from 'react';
import { Loading } from '../../components/Empty.tsx';
import type { Viewer } from '../../lib/use-viewer.ts';
import styles from './diagnosis.module.css';

const MayBe = lazy(() => import('./may-be.tsx').then(({ MayBe }) => ({ default: MayBe })));

/** What a finding may be, folded beside its assessment; it is fetched when somebody opens it. */
export function FoldedMayBe({
  finding: { id, title, symptom, turnedOut },
  viewer,
}: {
  finding: {
    id: string;
    title: string;
    symptom: string | null;
    turnedOut: { says: string } | null;
  };
  viewer: Viewer;
}) {
  const [opened, setOpened] = useState(false);
  const looks = viewer.person.roles.some((role) => role !== 'front_desk');
  if (symptom === null && !looks) return null;
  return (
    <details
      className={styles.folded}
      onToggle={(event) => event.currentTarget.open && setOpened(true)}
    >
      <summary>
        {turnedOut === null ? 'What it may be' : `It turned out to be: ${turnedOut.says}`}
        <span className="spoken">: {title}</span>
      </summary>
      {opened ? (
        <Suspense fallback={<Loading>Fetching what it may be</Loading>}>
          <MayBe findingId={id} viewer={viewer} size="desk" />
        </Suspense>
      ) : null}
    </details>
  );
}

'use client';

import { type FormEvent, useState } from 'react';
import { Button } from '../../components/Button.tsx';
import { Field } from '../../components/Field.tsx';
import { canReadCodes, readCode } from '../../lib/read-code.ts';
import styles from './quick-sign-in.module.css';

/** A badge's code: read by the camera where the browser offers it, by a hand scanner, or typed. */
export function BadgeField({ busy, onBadge }: { busy: boolean; onBadge: (badge: string) => void }) {
  const [badge, setBadge] = useState('');
  const [wrong, setWrong] = useState<string>();
  const [looking, setLooking] = useState(false);
  const show = (event: FormEvent) => {
    event.preventDefault();
    if (badge.trim() !== '') onBadge(badge.trim());
    setBadge('');
  };
  const look = async () => {
    setLooking(true);
    setWrong(undefined);
    try {
      onBadge(await readCode());
    } catch (problem) {
      setWrong(problem instanceof Error ? problem.message : 'The camera does not answer.');
    }
    setLooking(false);
  };
  return (
    <form className={styles.badge} onSubmit={show}>
      <Field
        label="Or the code of your badge"
        type="password"
        autoComplete="off"
        value={badge}
        wrong={wrong}
        onChange={(event) => setBadge(event.currentTarget.value)}
      />
      <div className={styles.ways}>
        <Button type="submit" size="bench" busy={busy ? 'Signing in' : undefined}>
          Sign in
        </Button>
        {canReadCodes() ? (
          <Button size="bench" busy={looking ? 'Looking' : undefined} onClick={() => void look()}>
            Read it by camera
          </Button>
        ) : null}
      </div>
    </form>
  );
}

'use client';

import { type ReactNode, useEffect, useState } from 'react';
import { Button } from '../../components/Button.tsx';
import { ErrorNote } from '../../components/ErrorNote.tsx';
import { auth } from '../../lib/auth.ts';
import { BadgeField } from './badge-field.tsx';
import { PinPad } from './pin-pad.tsx';
import styles from './quick-sign-in.module.css';

interface Device {
  name: string;
  people: { accountId: string; name: string }[];
}

/** On a device that the manager registered: who are you, and your PIN, or your badge. Elsewhere the form for a password. */
export function QuickSignIn({ children }: { children: ReactNode }) {
  const [device, setDevice] = useState<Device | null>(null);
  const [withPassword, setWithPassword] = useState(false);
  const [who, setWho] = useState<Device['people'][number] | null>(null);
  const [sentence, setSentence] = useState<string | null>(null);
  const [busy, setBusy] = useState(false);
  useEffect(() => {
    void auth<{ device: Device | null }>('/auth/device').then((said) => {
      if ('answer' in said) setDevice(said.answer.device);
    });
  }, []);

  async function open(key: Record<string, string>) {
    setBusy(true);
    setSentence(null);
    const said = await auth('/auth/quick', key);
    if ('answer' in said) {
      window.location.assign('/bench');
      return;
    }
    setSentence(said.sentence);
    setBusy(false);
  }

  if (device === null || withPassword) return children;
  const problem = sentence === null ? null : <ErrorNote head="Not signed in">{sentence}</ErrorNote>;
  if (who !== null)
    return (
      <section className={styles.quick} aria-labelledby="pin">
        <h2 id="pin">{who.name}</h2>
        {problem}
        <PinPad
          key={sentence}
          busy={busy}
          onPin={(pin) => void open({ accountId: who.accountId, pin })}
        />
        <Button
          size="bench"
          onClick={() => {
            setWho(null);
            setSentence(null);
          }}
        >
          Somebody else
        </Button>
      </section>
    );
  return (
    <section className={styles.quick} aria-labelledby="who">
      <h2 id="who">{device.name}: who are you?</h2>
      {problem}
      <ul className={styles.people}>
        {device.people.map((each) => (
          <li key={each.accountId}>
            <Button size="bench" onClick={() => setWho(each)}>
              {each.name}
            </Button>
          </li>
        ))}
      </ul>
      {device.people.length === 0 ? (
        <p>Nobody has a PIN yet: sign in with a password, and choose one on the bench.</p>
      ) : null}
      <BadgeField busy={busy} onBadge={(badge) => void open({ badge })} />
      <Button size="bench" onClick={() => setWithPassword(true)}>
        With a password
      </Button>
    </section>
  );
}

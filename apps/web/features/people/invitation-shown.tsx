'use client';

import { useEffect, useRef, useState } from 'react';
import { Button } from '../../components/Button.tsx';
import { dayAndTimeText } from '../../lib/figures/dates.ts';
import styles from './people.module.css';

export interface Invitation {
  name: string;
  email: string;
  path: string;
  expiresAt: string;
}

/** The link of an invitation, once: only its digest is kept. */
export function InvitationShown({
  invitation,
  timeZone,
  onDone,
}: {
  invitation: Invitation;
  timeZone: string;
  onDone: () => void;
}) {
  const link = useRef<HTMLInputElement>(null);
  const [copied, setCopied] = useState(false);
  useEffect(() => link.current?.select(), []);
  const address = new URL(invitation.path, window.location.origin).href;
  async function copy() {
    link.current?.select();
    await navigator.clipboard.writeText(address).then(
      () => setCopied(true),
      () => setCopied(false),
    );
  }
  return (
    <section className={styles.invitation} aria-label={`Invitation of ${invitation.name}`}>
      <p>
        <strong>Give this link to {invitation.name}.</strong> It is shown only now, works once, and
        opens until {dayAndTimeText(invitation.expiresAt, timeZone)}. With it they choose their own
        password and sign in as {invitation.email}.
      </p>
      <input ref={link} className={styles.link} readOnly value={address} aria-label="Link" />
      <div className={styles.ways}>
        <Button onClick={() => void copy()}>{copied ? 'Copied' : 'Copy the link'}</Button>
        <Button onClick={onDone}>I have given it</Button>
      </div>
    </section>
  );
}

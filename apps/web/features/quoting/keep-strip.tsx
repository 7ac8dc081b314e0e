'use client';

import { Button } from '../../components/Button.tsx';
import { ErrorNote } from '../../components/ErrorNote.tsx';
import { Field, LongField, Select } from '../../components/Field.tsx';
import type { Channel } from '../../graphql/generated/graphql.ts';
import styles from './quote-form.module.css';
import { deskChannels } from './quote-words.ts';

/** The last day, the terms, and the way out: send is the only primary action of the sheet. */
export function KeepStrip({
  terms,
  onTerms,
  expiresOn,
  onExpiresOn,
  channel,
  onChannel,
  ready,
  sending,
  problem,
  onLeave,
}: {
  terms: string;
  onTerms: (terms: string) => void;
  expiresOn: string;
  onExpiresOn: (date: string) => void;
  channel: Channel;
  onChannel: (channel: Channel) => void;
  ready: boolean;
  sending: boolean;
  problem: Error | null;
  /** Null: it stays a draft. */
  onLeave: (channel: Channel | null) => void;
}) {
  return (
    <section className={styles.keep} aria-label="Send">
      <div className={styles.who}>
        <Field
          label="Holds until"
          type="date"
          hint="Left empty: 30 days"
          value={expiresOn}
          onChange={(event) => onExpiresOn(event.currentTarget.value)}
        />
        <LongField
          label="Terms"
          hint="What else holds, if anything"
          rows={2}
          maxLength={4000}
          value={terms}
          onChange={(event) => onTerms(event.currentTarget.value)}
        />
      </div>
      {problem === null ? null : <ErrorNote head="Not sent">{problem.message}</ErrorNote>}
      <div className={styles.out}>
        <Select
          label="How it goes out"
          value={channel}
          onChange={(event) => onChannel(event.currentTarget.value as Channel)}
          options={deskChannels}
        />
        <Button
          kind="primary"
          disabled={!ready}
          busy={sending ? 'Sending' : undefined}
          onClick={() => onLeave(channel)}
        >
          Send
        </Button>
        <Button disabled={!ready || sending} onClick={() => onLeave(null)}>
          Keep as a draft
        </Button>
      </div>
      <p className={styles.hint}>
        Ctrl and Enter send from anywhere on the sheet. Sending records that the owner has it. By
        e-mail it is mailed, with its PDF and a private link; otherwise read it out, hand it over or
        print it.
      </p>
    </section>
  );
}

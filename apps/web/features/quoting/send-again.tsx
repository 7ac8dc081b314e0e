'use client';

import { useState } from 'react';
import { Button } from '../../components/Button.tsx';
import { ErrorNote } from '../../components/ErrorNote.tsx';
import { Select } from '../../components/Field.tsx';
import type { Channel, SendQuoteInput } from '../../graphql/generated/graphql.ts';
import { request } from '../../graphql/request.ts';
import { calendarDateText } from '../../lib/figures/dates.ts';
import { ContactEmail } from '../post/contact-email.tsx';
import { SendQuoteDocument } from './quote-mutations.ts';
import styles from './quote-sheet.module.css';
import { deskChannels } from './quote-words.ts';
import { useDoing } from './use-answer.ts';

/** Sends a draft that was kept. */
export function SendAgain({
  quoteId,
  revision,
  expiresOn,
  contact,
}: {
  quoteId: string;
  revision: number;
  expiresOn: string;
  contact: { id: string; name: string; email: string | null };
}) {
  const [channel, setChannel] = useState<Channel>('telephone');
  const send = useDoing(
    async (input: SendQuoteInput) => (await request(SendQuoteDocument, { input })).sendQuote,
  );
  return (
    <>
      <h2>Send it</h2>
      <div className={styles.narrow}>
        <Select
          label="How it goes out"
          value={channel}
          onChange={(event) => setChannel(event.currentTarget.value as Channel)}
          options={deskChannels}
        />
      </div>
      {send.error === null ? null : <ErrorNote head="Not sent">{send.error.message}</ErrorNote>}
      <div>
        <Button
          kind="primary"
          busy={send.isPending ? 'Sending' : undefined}
          onClick={() => send.mutate({ quoteId, revision, channel })}
        >
          Send
        </Button>
      </div>
      {channel === 'email' ? <ContactEmail contact={contact} /> : null}
      <p className={styles.quiet}>
        It holds until {calendarDateText(expiresOn)}. Sending records that the owner has it.{' '}
        {channel === 'email'
          ? 'It is mailed to them with its PDF and a private link to their page; what became of the mail is in the Post.'
          : 'Nothing is mailed: read it out, hand it over or print it.'}
      </p>
    </>
  );
}

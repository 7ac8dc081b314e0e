'use client';

import { useState } from 'react';
import { Button } from '../../components/Button.tsx';
import { Field } from '../../components/Field.tsx';
import { request } from '../../graphql/request.ts';
import { useDoing } from '../quoting/use-answer.ts';
import styles from './post.module.css';
import { type MailOnSheet, SendMailAnewDocument } from './post-documents.ts';

/** The same words once more, to another address where the first was wrong. */
export function SendAnew({ mail }: { mail: MailOnSheet }) {
  const [to, setTo] = useState(mail.to);
  const send = useDoing(
    async () => (await request(SendMailAnewDocument, { mailId: mail.id, to })).sendMailAnew,
  );
  return (
    <div className={styles.address} data-screen-only="">
      <Field
        label="Send it anew to"
        type="email"
        autoComplete="off"
        value={to}
        hint={send.isSuccess ? 'It is in the post, as a mail of its own.' : undefined}
        wrong={send.error?.message}
        onChange={(event) => setTo(event.currentTarget.value)}
      />
      <Button
        aria-label={`Send anew: ${mail.about}, to ${mail.toName}`}
        busy={send.isPending ? 'Asking' : undefined}
        onClick={() => send.mutate(undefined)}
      >
        Send anew
      </Button>
    </div>
  );
}

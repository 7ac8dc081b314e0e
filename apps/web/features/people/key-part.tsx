'use client';

import { useQuery, useQueryClient } from '@tanstack/react-query';
import { type FormEvent, useState } from 'react';
import { Button } from '../../components/Button.tsx';
import { Tick } from '../../components/Choice.tsx';
import { ErrorNote } from '../../components/ErrorNote.tsx';
import { Field } from '../../components/Field.tsx';
import { More } from '../../components/More.tsx';
import { request } from '../../graphql/request.ts';
import { dayAndTimeText } from '../../lib/figures/dates.ts';
import { ChangeShopKeyDocument, ShopKeysDocument } from './key-documents.ts';
import styles from './people.module.css';
import { useSetting } from './use-setting.ts';

/** The key that signs the shop's records, the ones before it, and how a new one takes over. */
export function KeyPart({ timeZone, name }: { timeZone: string; name: string }) {
  const asked = useQuery({
    queryKey: ['shopKeys'],
    queryFn: async () => (await request(ShopKeysDocument, {})).shopKeys,
  });
  const keys = asked.data?.__typename === 'QueryShopKeysSuccess' ? asked.data.data : [];
  const problem =
    asked.error?.message ?? (asked.data?.__typename === 'Refusal' ? asked.data.message : null);
  return (
    <section className={styles.part} aria-labelledby="shop-key">
      <h2 id="shop-key">The key that signs the records</h2>
      <p>
        Each entry prints its fingerprint. Its file lies beside the photos, in no database: back it
        up apart. What a key signed holds after it was replaced.
      </p>
      {problem === null ? null : <ErrorNote head="Not fetched">{problem}</ErrorNote>}
      {keys.length === 0 && problem === null && asked.data !== undefined ? (
        <p>None has signed yet: the first is made when it is needed.</p>
      ) : null}
      <ul className={styles.certificates}>
        {keys.map(({ id, fingerprint, madeAt, links, replaced }) => (
          <li key={id} data-over={replaced == null ? undefined : ''}>
            <span>
              <span className={styles.fingerprint}>{fingerprint}</span>, since{' '}
              {dayAndTimeText(madeAt, timeZone)}, {links} {links === 1 ? 'record' : 'records'}.{' '}
              {replaced == null
                ? 'It signs now.'
                : `${replaced.lost ? 'Lost, or trusted no more' : 'Handed over'}, ${dayAndTimeText(replaced.at, timeZone)}, ${replaced.by.name}: ${replaced.reason}.`}
            </span>
          </li>
        ))}
      </ul>
      {keys.length > 0 ? (
        <More words="A new key takes over">
          <ChangeForm name={name} />
        </More>
      ) : null}
    </section>
  );
}

function ChangeForm({ name }: { name: string }) {
  const [lost, setLost] = useState(false);
  const [reason, setReason] = useState('');
  const [signature, setSignature] = useState('');
  const client = useQueryClient();
  const changing = useSetting(
    async () => (await request(ChangeShopKeyDocument, { lost, reason, signature })).changeShopKey,
    () => {
      setReason('');
      setSignature('');
      setLost(false);
      void client.invalidateQueries({ queryKey: ['shopKeys'] });
    },
  );
  const submit = (event: FormEvent) => {
    event.preventDefault();
    changing.go(undefined);
  };
  return (
    <form className={styles.ask} onSubmit={submit} aria-label="A new key takes over">
      <p className={styles.consequence}>
        {lost
          ? 'The old key signs nothing of this. Every archive from now on shows the break, with your name and reason: whoever knows the old fingerprint has to ask you for the new one.'
          : 'The old key signs that it hands over, and signs nothing after that. Mails with a private link that wait are sent anew by hand.'}
      </p>
      <Tick
        name="key-lost"
        words="The old key is lost, or somebody else may have it"
        ticked={lost}
        onTick={setLost}
      />
      <Field
        label="Why"
        required
        maxLength={500}
        value={reason}
        wrong={changing.about('reason')}
        onChange={(event) => setReason(event.currentTarget.value)}
      />
      <Field
        label="Your name"
        hint={`Typed in full: ${name}. It stands in every archive.`}
        required
        maxLength={200}
        autoComplete="off"
        value={signature}
        wrong={changing.about('signature')}
        onChange={(event) => setSignature(event.currentTarget.value)}
      />
      {changing.sentence === undefined ? null : (
        <ErrorNote head="Not replaced">{changing.sentence}</ErrorNote>
      )}
      <div className={styles.ways}>
        <Button
          type="submit"
          disabled={reason.trim().length < 3 || signature.trim() === ''}
          busy={changing.busy ? 'Replacing' : undefined}
        >
          Replace the key
        </Button>
      </div>
    </form>
  );
}

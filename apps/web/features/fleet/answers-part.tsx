'use client';

import { useQuery } from '@tanstack/react-query';
import { type FormEvent, useState } from 'react';
import { Button } from '../../components/Button.tsx';
import { ErrorNote } from '../../components/ErrorNote.tsx';
import { Field, Select } from '../../components/Field.tsx';
import { PartsList } from '../../components/PartsList.tsx';
import type { Capacity } from '../../graphql/generated/graphql.ts';
import { request } from '../../graphql/request.ts';
import { moneyText } from '../../lib/figures/money.ts';
import { ContactChoice, isChosen } from '../books/contact-choice.tsx';
import { minorFrom } from '../quoting/amount-field.ts';
import { useDoing } from '../quoting/use-answer.ts';
import styles from './fleet.module.css';
import {
  type AnswersFor,
  AnswersForDocument,
  EndStandingDocument,
  NameContactDocument,
} from './fleet-documents.ts';

const capacityWords: Record<Capacity, string> = {
  owner: 'owner',
  operator: 'operator',
  payer: 'payer',
};
type Standing = AnswersFor['contacts'][number];

/** Who owns, operates and pays for an aircraft, and how far the yes of each goes. */
export function AnswersPart({
  aircraftId,
  currency,
  names,
}: {
  aircraftId: string;
  currency: string;
  /** Whether the reader may change it. */
  names: boolean;
}) {
  const asked = useQuery({
    queryKey: ['answersFor', aircraftId],
    queryFn: async () => (await request(AnswersForDocument, { id: aircraftId })).node,
  });
  const ending = useDoing(
    async ({ contact, capacity }: Standing) =>
      (
        await request(EndStandingDocument, {
          input: { aircraftId, contactId: contact.id, capacity },
        })
      ).answer,
  );
  if (asked.error) return <ErrorNote head="Nobody to show">{asked.error.message}</ErrorNote>;
  const craft = asked.data?.__typename === 'Aircraft' ? asked.data : null;
  if (craft === null) return null;
  return (
    <section className={styles.answers} aria-label="Who answers for it" id="answers">
      <h2>Who answers for it</h2>
      {craft.contacts.length === 0 ? (
        <p className={styles.second}>
          Nobody is named: without an owner, operator or payer nothing can be quoted or agreed.
        </p>
      ) : (
        <PartsList
          caption="Owner, operator, payer"
          captionHidden
          columns={[
            { key: 'who', head: 'Who' },
            { key: 'what', head: 'As' },
            { key: 'limit', head: `Yes up to, ${currency}`, kind: 'figure' },
            ...(names ? [{ key: 'end', head: 'Change' }] : []),
          ]}
          rows={craft.contacts.map((standing) => ({
            key: `${standing.contact.id} ${standing.capacity}`,
            note: [standing.contact.email, standing.contact.phone].filter(Boolean).join(' · '),
            cells: {
              who: standing.contact.name,
              what: capacityWords[standing.capacity],
              limit: limitWords(standing.mayAuthorise, currency),
              ...(names && {
                end: (
                  <Button
                    kind="plain"
                    disabled={ending.isPending}
                    onClick={() => ending.mutate(standing)}
                  >
                    no longer
                    <span className="spoken">
                      {' '}
                      {standing.contact.name}, {standing.capacity}
                    </span>
                  </Button>
                ),
              }),
            },
          }))}
        />
      )}
      {ending.error ? <ErrorNote head="Not ended">{ending.error.message}</ErrorNote> : null}
      {names ? <NameForm aircraftId={aircraftId} currency={currency} /> : null}
    </section>
  );
}

const limitWords = (limit: string | null, currency: string) =>
  limit === null ? 'no limit given' : limit === '0' ? 'none' : moneyText(BigInt(limit), currency);

function NameForm({ aircraftId, currency }: { aircraftId: string; currency: string }) {
  const [given, setGiven] = useState({ contactId: '', capacity: 'owner', limit: '' });
  const limit = given.limit.trim() === '' ? null : minorFrom(given.limit, currency);
  const unread = given.limit.trim() !== '' && limit === null;
  const naming = useDoing(
    async () =>
      (
        await request(NameContactDocument, {
          input: {
            aircraftId,
            contactId: given.contactId,
            capacity: given.capacity as Capacity,
            mayAuthorise: limit === null ? null : `${limit}`,
          },
        })
      ).answer,
    () => setGiven({ contactId: '', capacity: 'owner', limit: '' }),
  );
  const submit = (event: FormEvent) => {
    event.preventDefault();
    if (!unread && isChosen(given.contactId)) naming.mutate(undefined);
  };
  return (
    <form className={styles.form} onSubmit={submit} noValidate aria-label="Name somebody for it">
      <div className={styles.fields}>
        <ContactChoice
          label="Who"
          value={given.contactId}
          onChoose={(contactId) => setGiven({ ...given, contactId })}
        />
        <Select
          label="As its"
          options={Object.entries(capacityWords).map(([value, words]) => ({ value, words }))}
          value={given.capacity}
          onChange={(event) => setGiven({ ...given, capacity: event.currentTarget.value })}
        />
        <Field
          label="May say yes up to"
          hint="Net. Empty: no limit was given; 0: not at all."
          unit={currency}
          inputMode="decimal"
          figures
          wrong={unread ? 'needed: an amount, or nothing' : undefined}
          value={given.limit}
          onChange={(event) => setGiven({ ...given, limit: event.currentTarget.value })}
        />
      </div>
      {naming.error ? <ErrorNote head="Not named">{naming.error.message}</ErrorNote> : null}
      <div className={styles.buttons}>
        <Button
          type="submit"
          disabled={!isChosen(given.contactId)}
          busy={naming.isPending ? 'Naming' : undefined}
        >
          Name them
        </Button>
      </div>
    </form>
  );
}

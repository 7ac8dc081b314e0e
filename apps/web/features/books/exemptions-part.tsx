'use client';

import { useQuery } from '@tanstack/react-query';
import { type FormEvent, useState } from 'react';
import { Button } from '../../components/Button.tsx';
import { ErrorNote } from '../../components/ErrorNote.tsx';
import { Field } from '../../components/Field.tsx';
import { More } from '../../components/More.tsx';
import { PartsList } from '../../components/PartsList.tsx';
import { request } from '../../graphql/request.ts';
import { calendarDateText } from '../../lib/figures/dates.ts';
import { useDoing } from '../quoting/use-answer.ts';
import { AddExemptionForm } from './add-exemption-form.tsx';
import styles from './books.module.css';
import {
  EndExemptionDocument,
  type ExemptionShown,
  ExemptionsDocument,
} from './exemption-documents.ts';

/** Of what a payer and their aircraft are not taxed, until when, and by which paper. */
export function ExemptionsPart({ contactId }: { contactId: string }) {
  const asked = useQuery({
    queryKey: ['exemptions', contactId],
    queryFn: async () => (await request(ExemptionsDocument, { id: contactId })).node,
  });
  const payer = asked.data?.__typename === 'Contact' ? asked.data : null;
  if (asked.error) return <ErrorNote head="No exemptions to show">{asked.error.message}</ErrorNote>;
  if (payer === null) return null;
  const all = [
    ...payer.exemptions.map((each) => ({ ...each, whose: payer.name })),
    ...payer.aircraft.flatMap(({ registration, exemptions }) =>
      exemptions.map((each) => ({ ...each, whose: registration })),
    ),
  ];
  return (
    <section className={styles.list} aria-label="Exemptions from tax">
      {all.length === 0 ? (
        <>
          <h2 className={styles.head}>Exemptions from tax</h2>
          <p className={styles.second}>
            None: {payer.name} is taxed as everybody. An exemption needs its reason and its paper.
          </p>
        </>
      ) : (
        <PartsList
          caption="Exemptions from tax"
          columns={[
            { key: 'whose', head: 'Whose' },
            { key: 'on', head: 'On' },
            { key: 'days', head: 'From and until' },
            { key: 'paper', head: 'Paper' },
          ]}
          rows={all.map((each) => ({
            key: each.id,
            note: `${each.reason}. ${standing(each)}`,
            cells: {
              whose: each.whose,
              on: each.category,
              days: `${calendarDateText(each.from)} – ${calendarDateText(each.until)}`,
              paper: (
                <>
                  <a href={each.url} target="_blank" rel="noreferrer">
                    {each.name}
                  </a>
                  {each.holds ? <EndIt exemption={each} whose={each.whose} /> : null}
                </>
              ),
            },
          }))}
        />
      )}
      <div data-screen-only="">
        <More words="Add an exemption, with its paper">
          <AddExemptionForm payer={payer} />
        </More>
      </div>
    </section>
  );
}

const standing = ({ holds, endedBecause, by }: ExemptionShown) =>
  endedBecause !== null
    ? `Ended: ${endedBecause}.`
    : `${holds ? 'Counts today' : 'Does not count today'}, kept by ${by.name}.`;

function EndIt({ exemption, whose }: { exemption: ExemptionShown; whose: string }) {
  const [open, setOpen] = useState(false);
  const [reason, setReason] = useState('');
  const ending = useDoing(
    async () =>
      (
        await request(EndExemptionDocument, {
          input: { exemptionId: exemption.id, reason: reason.trim() },
        })
      ).endExemption,
  );
  function submit(event: FormEvent) {
    event.preventDefault();
    ending.mutate(undefined);
  }
  return (
    <span data-screen-only="">
      {' '}
      <Button
        kind="plain"
        aria-expanded={open}
        aria-label={`End the exemption of ${whose} on ${exemption.category}`}
        onClick={() => setOpen(!open)}
      >
        End it
      </Button>
      {open ? (
        <form className={styles.ask} onSubmit={submit} aria-label="End the exemption">
          <Field
            label="Why it does not hold any more"
            required
            maxLength={300}
            value={reason}
            onChange={(event) => setReason(event.currentTarget.value)}
          />
          {ending.error === null ? null : (
            <ErrorNote head="Not ended">{ending.error.message}</ErrorNote>
          )}
          <div className={styles.ways}>
            <Button type="submit" busy={ending.isPending ? 'Ending' : undefined}>
              End it today
            </Button>
          </div>
        </form>
      ) : null}
    </span>
  );
}

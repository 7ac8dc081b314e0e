'use client';

import { useState } from 'react';
import { Button } from '../../components/Button.tsx';
import { ErrorNote } from '../../components/ErrorNote.tsx';
import { Field, Select } from '../../components/Field.tsx';
import { SheetLink } from '../../components/SheetLink.tsx';
import type { RelatePartsInput } from '../../graphql/generated/graphql.ts';
import { request } from '../../graphql/request.ts';
import { clientId } from '../../lib/client-id.ts';
import { dayText } from '../../lib/figures/dates.ts';
import { useDoing } from '../quoting/use-answer.ts';
import { partHref } from './addresses.ts';
import { MoveFrame } from './move-frame.tsx';
import { type PartOnSheet, RelatePartsDocument } from './part-documents.ts';
import { PartPicker } from './part-picker.tsx';
import styles from './stores.module.css';
import type { StoresPart } from './stores-documents.ts';

const kinds = [
  { value: 'superseded', words: 'its number supersedes this one' },
  { value: 'alternate', words: 'it may be fitted instead: an alternate' },
];

/** What may stand in for a part, and what the part stands in for: one direction each. */
export function StandInsPart({
  part,
  timeZone,
  judges,
}: {
  part: PartOnSheet;
  timeZone: string;
  /** Whether whoever reads may say which parts interchange. */
  judges: boolean;
}) {
  const [adding, setAdding] = useState(false);
  const { number, instead, insteadOf } = part;
  const withdraw = useDoing(
    async (input: RelatePartsInput) => (await request(RelatePartsDocument, { input })).relateParts,
  );
  return (
    <section className={styles.part} aria-labelledby="stand-ins">
      <h2 id="stand-ins" className={styles.caption}>
        Superseding numbers and alternates
      </h2>
      {instead.length + insteadOf.length === 0 ? (
        <p className={styles.second}>
          Nothing is said to stand in for {number}, and it stands in for nothing.
        </p>
      ) : null}
      <ul className={styles.documents} aria-label={`What stands in for ${number}`}>
        {instead.map(({ id, kind, source, at, by, instead: other }) => (
          <li key={id}>
            {kind === 'superseded' ? 'Superseded by' : 'Alternate:'}{' '}
            <SheetLink className={styles.figures} href={partHref(other.id)}>
              {other.number}
            </SheetLink>{' '}
            {other.title}
            <span className={styles.second}>
              {source}; said by {by.name}, {dayText(at, timeZone)}
            </span>
            {judges ? (
              <span data-screen-only="">
                <Button
                  kind="plain"
                  onClick={() =>
                    withdraw.mutate({
                      partId: part.id,
                      insteadId: other.id,
                      kind: 'withdrawn',
                      source: 'withdrawn on the part’s sheet',
                    })
                  }
                >
                  No longer true<span className="spoken">: {other.number}</span>
                </Button>
              </span>
            ) : null}
          </li>
        ))}
        {insteadOf.map(({ id, kind, part: other }) => (
          <li key={id}>
            {kind === 'superseded' ? 'Supersedes' : 'Is an alternate for'}{' '}
            <SheetLink className={styles.figures} href={partHref(other.id)}>
              {other.number}
            </SheetLink>{' '}
            {other.title}
          </li>
        ))}
      </ul>
      {withdraw.error === null ? null : (
        <ErrorNote head="Not withdrawn">{withdraw.error.message}</ErrorNote>
      )}
      {!judges ? null : adding ? (
        <RelateForm part={part} onLeave={() => setAdding(false)} />
      ) : (
        <div className={styles.ways} data-screen-only="">
          <Button onClick={() => setAdding(true)}>Name what stands in for it</Button>
        </div>
      )}
    </section>
  );
}

function RelateForm({ part, onLeave }: { part: PartOnSheet; onLeave: () => void }) {
  const [key] = useState(clientId);
  const [other, setOther] = useState<StoresPart>();
  const [kind, setKind] = useState('superseded');
  const [source, setSource] = useState('');
  const relate = useDoing(
    async (input: RelatePartsInput) => (await request(RelatePartsDocument, { input })).relateParts,
    onLeave,
  );
  return (
    <MoveFrame
      name={`What stands in for ${part.number}`}
      says="One direction: that another stands in for this one says nothing of this one for the other. The maker’s current data decide, and they are named here."
      yes="Keep it"
      ready={other !== undefined && source.trim().length >= 3}
      busy={relate.isPending ? 'Keeping' : undefined}
      problem={relate.error}
      onNo={onLeave}
      onYes={() => {
        if (other !== undefined)
          relate.mutate({
            partId: part.id,
            insteadId: other.id,
            kind: kind === 'alternate' ? 'alternate' : 'superseded',
            source,
            clientEventId: key,
          });
      }}
    >
      <div className={styles.fields}>
        <PartPicker label="Which part" part={other} onPick={setOther} without={part.id} />
        <Select
          label="How"
          options={kinds}
          value={kind}
          onChange={(event) => setKind(event.currentTarget.value)}
        />
        <Field
          label="By which data"
          hint="The maker’s list, bulletin or letter, with its revision"
          maxLength={200}
          value={source}
          onChange={(event) => setSource(event.currentTarget.value)}
        />
      </div>
    </MoveFrame>
  );
}

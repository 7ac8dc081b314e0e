'use client';

import { useState } from 'react';
import { Field } from '../../components/Field.tsx';
import type { CountLotInput, ScrapPartInput } from '../../graphql/generated/graphql.ts';
import { request } from '../../graphql/request.ts';
import { clientId } from '../../lib/client-id.ts';
import { useDoing } from '../quoting/use-answer.ts';
import { CountLotDocument, ScrapPartDocument } from './lot-documents.ts';
import { MoveFrame } from './move-frame.tsx';
import { typedCount, typedQuantity } from './shelves.ts';
import styles from './stores.module.css';
import type { Lot } from './stores-documents.ts';

interface OfLot {
  lot: Lot;
  /** Told what happened, in a sentence. */
  onDone: (said: string) => void;
  onLeave: () => void;
}

/** Throws away what lies in a lot. One opening of this form is one movement. */
export function ScrapForm({ lot, onDone, onLeave }: OfLot) {
  const [key] = useState(clientId);
  const [typed, setTyped] = useState('');
  const [reason, setReason] = useState('');
  const { title, unit } = lot.part;
  const quantity = typedQuantity(typed);
  const tooMany = quantity !== null && Number(quantity) > Number(lot.onHand);
  const scrap = useDoing(
    async (input: ScrapPartInput) => (await request(ScrapPartDocument, { input })).scrapPart,
    () => onDone(`${quantity} ${unit} of ${title}, batch ${lot.batch}, scrapped.`),
  );
  return (
    <MoveFrame
      name={`Scrap ${title}, batch ${lot.batch}`}
      says="It leaves the shelf for good. Make what must not be fitted unusable, and keep a life-limited part apart as the rules ask."
      yes="Scrap it"
      ready={quantity !== null && !tooMany && reason.trim().length >= 3}
      busy={scrap.isPending ? 'Recording' : undefined}
      problem={scrap.error}
      onNo={onLeave}
      onYes={() => {
        if (quantity !== null)
          scrap.mutate({ lotId: lot.id, quantity, reason, clientEventId: key });
      }}
    >
      <div className={styles.fields}>
        <Field
          label="How many"
          figures
          inputMode="decimal"
          autoComplete="off"
          unit={unit}
          hint={`${lot.onHand} ${unit} are there`}
          wrong={
            typed !== '' && quantity === null
              ? `“${typed}” is no quantity: needed is more than 0, with at most 3 decimals.`
              : tooMany
                ? `${quantity} were given: the lot holds ${lot.onHand}.`
                : undefined
          }
          value={typed}
          onChange={(event) => setTyped(event.currentTarget.value)}
        />
        <Field
          label="Why"
          hint="Such as: dropped, sealing face scratched"
          maxLength={300}
          value={reason}
          onChange={(event) => setReason(event.currentTarget.value)}
        />
      </div>
    </MoveFrame>
  );
}

/** A stock-take of one lot: what was counted, and why it differs where it does. */
export function CountForm({ lot, onDone, onLeave }: OfLot) {
  const [key] = useState(clientId);
  // What should be there is what was said when the form was opened: counting takes a while.
  const [expected] = useState(lot.onHand);
  const [typed, setTyped] = useState('');
  const [reason, setReason] = useState('');
  const { title, unit } = lot.part;
  const counted = typedCount(typed);
  const differs = counted !== null && Number(counted) !== Number(expected);
  const count = useDoing(
    async (input: CountLotInput) => (await request(CountLotDocument, { input })).countLot,
    () =>
      onDone(
        `${counted} ${unit} of ${title}, batch ${lot.batch}, counted: ${differs ? `${expected} should have been there` : 'as many as should be there'}.`,
      ),
  );
  return (
    <MoveFrame
      name={`Count ${title}, batch ${lot.batch}`}
      says="The lot holds what was counted from here on. The difference, the reason and your name are kept; so is a count that found all in order."
      yes="Keep the count"
      ready={counted !== null && (!differs || reason.trim().length >= 3)}
      busy={count.isPending ? 'Recording' : undefined}
      problem={count.error}
      onNo={onLeave}
      onYes={() => {
        if (counted !== null)
          count.mutate({ lotId: lot.id, counted, expected, reason, clientEventId: key });
      }}
    >
      <div className={styles.fields}>
        <Field
          label="How many are there"
          figures
          inputMode="decimal"
          autoComplete="off"
          unit={unit}
          hint={`${expected} ${unit} should be`}
          wrong={
            typed !== '' && counted === null
              ? `“${typed}” is no count: needed is 0 or more, with at most 3 decimals.`
              : undefined
          }
          value={typed}
          onChange={(event) => setTyped(event.currentTarget.value)}
        />
        <Field
          label="Why it differs"
          hint={differs ? 'Needed, since it does' : 'Only where it does'}
          maxLength={300}
          value={reason}
          onChange={(event) => setReason(event.currentTarget.value)}
        />
      </div>
    </MoveFrame>
  );
}

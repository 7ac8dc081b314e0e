'use client';

import { useQuery } from '@tanstack/react-query';
import { useState } from 'react';
import { Tick } from '../../components/Choice.tsx';
import { Field, LongField, Select } from '../../components/Field.tsx';
import type { IssueException, IssuePartInput } from '../../graphql/generated/graphql.ts';
import { request } from '../../graphql/request.ts';
import { clientId } from '../../lib/client-id.ts';
import { useDoing } from '../quoting/use-answer.ts';
import { againstText, againstWords, issueAgainst } from './issue-against.ts';
import { KeptOfLotDocument } from './lot-documents.ts';
import { MoveFrame } from './move-frame.tsx';
import { typedQuantity } from './shelves.ts';
import styles from './stores.module.css';
import { IssuePartDocument, type Lot, type OrderWithParts } from './stores-documents.ts';

/**
 * Takes parts out of a lot for an item of work. One opening of this form is one movement. What the issue is against is said
 * before it is asked for: each has to be ticked, and wants a reason.
 */
export function IssueForm({
  lot,
  orders,
  today,
  who,
  onDone,
  onLeave,
}: {
  lot: Lot;
  orders: readonly OrderWithParts[];
  today: string;
  /** The name under which a reason is kept. */
  who: string;
  /** Told what happened, in a sentence. */
  onDone: (said: string) => void;
  onLeave: () => void;
}) {
  const [key] = useState(clientId);
  const [itemId, setItemId] = useState('');
  const [typed, setTyped] = useState('1');
  const [known, setKnown] = useState<readonly IssueException[]>([]);
  const [reason, setReason] = useState('');
  /** The work with which the shop said that this goes past what its owner agreed to. */
  const [beyond, setBeyond] = useState('');
  const kept = useQuery({
    queryKey: ['keptOfLot', lot.id],
    queryFn: async () => (await request(KeptOfLotDocument, { id: lot.id })).node,
  });
  const options = orders.flatMap(({ id: orderId, aircraft, items }) =>
    items
      .filter(({ state }) => state !== 'put_off')
      .map(({ id, position, title }) => ({
        value: id,
        words: `${aircraft.registration}, ${position} ${title}`,
        orderId,
      })),
  );
  const forOrder = options.find(({ value }) => value === itemId)?.orderId;
  const own =
    (kept.data !== null && kept.data !== undefined && 'reservedFor' in kept.data
      ? kept.data.reservedFor
      : []
    ).find(({ order }) => order.id === forOrder)?.quantity ?? '0';
  const quantity = typedQuantity(typed);
  const tooMany = quantity !== null && Number(quantity) > Number(lot.onHand);
  const against: IssueException[] =
    quantity === null || tooMany || itemId === ''
      ? []
      : [
          ...issueAgainst(lot, { quantity, own, today }),
          ...(beyond === itemId ? (['beyond_authority'] as const) : []),
        ];
  const answered = against.every((each) => known.includes(each));
  const { title, unit } = lot.part;
  const issue = useDoing(
    async (input: IssuePartInput) => {
      const answer = (await request(IssuePartDocument, { input })).issuePart;
      if (answer.__typename === 'Refusal' && answer.code === 'BEYOND_AGREED')
        setBeyond(`${input.itemId}`);
      return answer;
    },
    () =>
      onDone(
        `${quantity} ${unit} of ${title} issued to ${options.find(({ value }) => value === itemId)?.words ?? 'the work'}${against.length === 0 ? '' : `, ${againstText(against)}, for the reason given`}.`,
      ),
  );
  return (
    <MoveFrame
      name={`Issue ${title}, batch ${lot.batch}`}
      says="It is billed with that work, and its batch is kept with it."
      yes="Issue it"
      ready={
        quantity !== null &&
        !tooMany &&
        itemId !== '' &&
        answered &&
        (against.length === 0 || reason.trim().length >= 3)
      }
      busy={issue.isPending ? 'Recording' : undefined}
      problem={issue.error}
      onNo={onLeave}
      onYes={() => {
        if (quantity !== null)
          issue.mutate({
            lotId: lot.id,
            itemId,
            quantity,
            clientEventId: key,
            ...(against.length > 0 && { despite: against, reason }),
          });
      }}
    >
      <div className={styles.fields}>
        <Select
          label="For which work"
          hint={options.length === 0 ? 'No aircraft is here: parts go to work' : undefined}
          value={itemId}
          onChange={(event) => setItemId(event.currentTarget.value)}
          options={[{ value: '', words: 'choose the work' }, ...options]}
        />
        <Field
          label="How many"
          figures
          inputMode="decimal"
          autoComplete="off"
          unit={unit}
          hint={`${lot.onHand} ${unit} are there${Number(own) > 0 ? `, ${own} of them kept for this order` : ''}`}
          wrong={
            quantity === null
              ? `“${typed}” is no quantity: needed is more than 0, with at most 3 decimals.`
              : tooMany
                ? `${quantity} were given: the lot holds ${lot.onHand}.`
                : undefined
          }
          value={typed}
          onChange={(event) => setTyped(event.currentTarget.value)}
        />
      </div>
      {against.length === 0 ? null : (
        <div className={styles.against}>
          {against.map((each) => (
            <Tick
              key={each}
              name={each}
              words={`I know that it goes ${againstWords[each]}`}
              ticked={known.includes(each)}
              onTick={(yes) =>
                setKnown((before) =>
                  yes ? [...before, each] : before.filter((other) => other !== each),
                )
              }
            />
          ))}
          <LongField
            label="Why it is issued all the same"
            hint={`Kept with the movement and at the work, under your name: ${who}`}
            rows={2}
            maxLength={300}
            value={reason}
            onChange={(event) => setReason(event.currentTarget.value)}
          />
        </div>
      )}
    </MoveFrame>
  );
}

'use client';

import { useQuery } from '@tanstack/react-query';
import { type FormEvent, useState } from 'react';
import { Button } from '../../components/Button.tsx';
import { ErrorNote } from '../../components/ErrorNote.tsx';
import { Field, Select } from '../../components/Field.tsx';
import { More } from '../../components/More.tsx';
import { request } from '../../graphql/request.ts';
import type { OrderData } from './order-documents.ts';
import styles from './order-sheet.module.css';
import {
  AddWorkAtOurCostDocument,
  PastWorkDocument,
  PutAtOurCostDocument,
} from './our-cost-documents.ts';
import type { ourCostKinds } from './our-cost-words.ts';
import { useDoing } from './use-answer.ts';

type Kind = keyof typeof ourCostKinds;
const NEW = 'new';
const ALL = 'all';
const none = {
  item: '',
  kind: 'rework' as Kind | 'billed',
  first: '',
  title: '',
  jasc: '',
  reason: '',
};

/** Says of work, or of a new item, that nobody is billed for it, and of rework what it puts right. */
export function OurCost({ order, mayAdd }: { order: OrderData; mayAdd: boolean }) {
  const [typed, setTyped] = useState(none);
  const type = (change: Partial<typeof none>) => setTyped({ ...typed, ...change });
  const past = useQuery({
    queryKey: ['pastWork', order.id],
    queryFn: async () => (await request(PastWorkDocument, { id: order.id })).node,
    enabled: typed.item !== '',
  });
  const { item, kind, first, title, jasc, reason } = typed;
  const work = past.data?.__typename === 'WorkOrder' ? past.data.pastWork : [];
  const doing = useDoing(
    async () => {
      const putsRightId = kind === 'rework' ? first : null;
      if (item === NEW && kind !== 'billed')
        return (
          await request(AddWorkAtOurCostDocument, {
            input: { orderId: order.id, kind, title, jasc: jasc || null, putsRightId, reason },
          })
        ).result;
      const of = item === ALL ? { orderId: order.id } : { itemId: item };
      return (
        await request(PutAtOurCostDocument, {
          input: { ...of, kind: kind === 'billed' ? null : kind, putsRightId, reason },
        })
      ).result;
    },
    () => setTyped(none),
  );
  const ready =
    item !== '' &&
    reason.trim().length >= 3 &&
    (kind !== 'rework' || first !== '') &&
    (item !== NEW || title.trim().length >= 3);
  function submit(event: FormEvent) {
    event.preventDefault();
    if (ready) doing.mutate(undefined);
  }
  return (
    <div data-screen-only="">
      <More words="Work at our own cost">
        <form className={styles.stack} aria-label="Work at our own cost" onSubmit={submit}>
          <div className={styles.pair}>
            <Select
              label="Which work"
              value={item}
              onChange={(event) => {
                const chosen = event.currentTarget.value;
                type({
                  item: chosen,
                  ...(chosen === NEW && kind === 'billed' && { kind: 'rework' }),
                });
              }}
              options={[
                { value: '', words: 'choose the work' },
                ...(mayAdd ? [{ value: NEW, words: 'a new item' }] : []),
                ...(order.items.length > 1
                  ? [{ value: ALL, words: 'every item there is now' }]
                  : []),
                ...order.items.map(({ id, position, title: name }) => ({
                  value: id,
                  words: `${position} · ${name}`,
                })),
              ]}
            />
            <Select
              label="Why nobody is billed"
              value={kind}
              onChange={(event) => type({ kind: event.currentTarget.value as Kind })}
              options={[
                { value: 'rework', words: 'rework: it puts our earlier work right' },
                { value: 'training', words: 'training' },
                { value: 'shop', words: 'for the shop itself' },
                ...(item === NEW ? [] : [{ value: 'billed', words: 'it is billed again' }]),
              ]}
            />
            {kind === 'rework' ? (
              <Select
                label="What it puts right"
                value={first}
                hint={
                  past.isSuccess && work.length === 0
                    ? 'No work was begun on this aircraft.'
                    : undefined
                }
                onChange={(event) => type({ first: event.currentTarget.value })}
                options={[
                  { value: '', words: past.isPending ? 'fetching' : 'choose the earlier work' },
                  ...work
                    .filter(({ id }) => id !== item)
                    .map(({ id, title: name, order: { number } }) => ({
                      value: id,
                      words: `order ${number} · ${name}`,
                    })),
                ]}
              />
            ) : null}
            {item === NEW ? (
              <>
                <Field
                  label="What is done"
                  maxLength={200}
                  value={title}
                  onChange={(event) => type({ title: event.currentTarget.value })}
                />
                <Field
                  label="JASC code"
                  hint={kind === 'rework' ? 'Left out: that of the earlier work.' : 'Four digits.'}
                  figures
                  inputMode="numeric"
                  maxLength={4}
                  value={jasc}
                  onChange={(event) => type({ jasc: event.currentTarget.value })}
                />
              </>
            ) : null}
            <Field
              label="In a few words"
              maxLength={500}
              value={reason}
              onChange={(event) => type({ reason: event.currentTarget.value })}
            />
          </div>
          <p className={styles.quiet}>
            It is clocked, initialled and signed for like any other work, and its hours are learned
            from. Of rework, and of what was offered, the invoice says that it is at our cost; of
            training and the shop’s own it says nothing.
          </p>
          {past.error === null ? null : (
            <ErrorNote head="No earlier work to show">{past.error.message}</ErrorNote>
          )}
          {doing.error === null ? null : (
            <ErrorNote head="Not recorded">{doing.error.message}</ErrorNote>
          )}
          <div>
            <Button
              type="submit"
              disabled={!ready}
              busy={doing.isPending ? 'Recording' : undefined}
            >
              Record it
            </Button>
          </div>
        </form>
      </More>
    </div>
  );
}

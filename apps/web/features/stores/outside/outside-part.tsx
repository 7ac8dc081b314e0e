'use client';

import { useQuery } from '@tanstack/react-query';
import { useState } from 'react';
import { Button } from '../../../components/Button.tsx';
import { ErrorNote } from '../../../components/ErrorNote.tsx';
import { PartsList } from '../../../components/PartsList.tsx';
import { request } from '../../../graphql/request.ts';
import { moneyText } from '../../../lib/figures/money.ts';
import type { Viewer } from '../../../lib/use-viewer.ts';
import styles from '../stores.module.css';
import { BillForm } from './bill-form.tsx';
import { OutsideOfOrderDocument } from './outside-documents.ts';
import type { OutsideJob } from './outside-job.ts';
import { outsideWords, pieceWords } from './outside-words.ts';
import { PromiseForm } from './promise-form.tsx';
import { ReturnForm } from './return-form.tsx';
import { SendForm } from './send-form.tsx';

type Open = { what: 'send' } | { what: 'promise' | 'return' | 'bill'; job: OutsideJob } | null;

/** What of an order is or was with other shops, and what can be said of it. */
export function OutsidePart({
  orderId,
  open: mayChange,
  shop,
  roles,
}: {
  orderId: string;
  /** Whether the order still goes on. */
  open: boolean;
  shop: Viewer['shop'];
  roles: readonly string[];
}) {
  const [open, setOpen] = useState<Open>(null);
  const asked = useQuery({
    queryKey: ['outside', orderId],
    queryFn: async () => (await request(OutsideOfOrderDocument, { id: orderId })).node,
  });
  if (asked.error !== null)
    return <ErrorNote head="No outside work to show">{asked.error.message}</ErrorNote>;
  const order = asked.data?.__typename === 'WorkOrder' ? asked.data : null;
  if (order === null) return null;
  const jobs = order.items.flatMap((item) => item.outside.map((job) => ({ item, job })));
  const items = order.items.filter(({ state }) => ['open', 'in_work', 'waiting'].includes(state));
  const mayBill = roles.includes('front_desk') || roles.includes('manager');
  if (jobs.length === 0 && (!mayChange || items.length === 0)) return null;
  const close = () => setOpen(null);
  const ways = (job: OutsideJob) => [
    ...(job.returnedAt === null
      ? [
          { what: 'promise' as const, words: 'Another day' },
          { what: 'return' as const, words: 'Came back' },
        ]
      : []),
    ...(mayBill && job.bills.length === 0 ? [{ what: 'bill' as const, words: 'Their bill' }] : []),
  ];
  return (
    <section className={styles.part} aria-label="Outside work">
      {jobs.length === 0 ? (
        <h2 className={styles.caption}>Outside work</h2>
      ) : (
        <PartsList
          caption="Outside work"
          columns={[
            { key: 'what', head: 'What' },
            { key: 'where', head: 'Where it is' },
          ]}
          rows={jobs.map(({ item, job }) => ({
            key: job.id,
            note: [`for item ${item.position}`, job.vendor, pieceWords(job), billWords(job, shop)]
              .filter(Boolean)
              .join(' · '),
            cells: {
              what: `${job.number} · ${job.what}`,
              where: (
                <>
                  <span
                    className={job.overdue || job.withoutTag !== null ? styles.ochre : undefined}
                  >
                    {outsideWords(job, shop.timeZone)}
                  </span>{' '}
                  {job.documents.map(({ id, url, name }) => (
                    <a key={id} href={url} target="_blank" rel="noreferrer">
                      {name}{' '}
                    </a>
                  ))}
                  <span data-screen-only="">
                    {ways(job).map(({ what, words }) => (
                      <Button
                        key={what}
                        kind="plain"
                        aria-label={`${words}: ${job.what}`}
                        aria-expanded={
                          open?.what === what && 'job' in open && open.job.id === job.id
                        }
                        onClick={() => setOpen({ what, job })}
                      >
                        {words}
                      </Button>
                    ))}
                  </span>
                </>
              ),
            },
          }))}
        />
      )}
      {open === null && mayChange && items.length > 0 ? (
        <div data-screen-only="">
          <Button onClick={() => setOpen({ what: 'send' })}>Send something out</Button>
        </div>
      ) : null}
      {open?.what === 'send' ? <SendForm items={items} onBack={close} /> : null}
      {open?.what === 'promise' ? (
        <PromiseForm key={open.job.id} job={open.job} onBack={close} />
      ) : null}
      {open?.what === 'return' ? (
        <ReturnForm key={open.job.id} job={open.job} onBack={close} />
      ) : null}
      {open?.what === 'bill' ? (
        <BillForm
          key={open.job.id}
          job={open.job}
          order={order}
          currency={shop.currency}
          onBack={close}
        />
      ) : null}
    </section>
  );
}

function billWords({ bills }: OutsideJob, { currency }: Viewer['shop']): string {
  const [bill] = bills;
  if (bill === undefined) return '';
  const said = `bill ${bill.reference}${bill.cost === null ? '' : `, ${moneyText(BigInt(bill.cost), currency)}`}`;
  if (bill.quoteLine !== null) return `${said}, within “${bill.quoteLine.title}” of the quote`;
  if (bill.charge === null) return said;
  return bill.charge.ended === null
    ? `${said}, charged ${moneyText(BigInt(bill.charge.amount), currency)}`
    : `${said}, not charged: ${bill.charge.ended}`;
}

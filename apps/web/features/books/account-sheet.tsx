'use client';

import { keepPreviousData, useQuery, useQueryClient } from '@tanstack/react-query';
import { useState } from 'react';
import { ButtonLink } from '../../components/Button.tsx';
import { Empty, Loading } from '../../components/Empty.tsx';
import { Field } from '../../components/Field.tsx';
import { CalendarDate, Money } from '../../components/Figure.tsx';
import { NoAnswer } from '../../components/NoAnswer.tsx';
import { PartsList } from '../../components/PartsList.tsx';
import { Sheet } from '../../components/Sheet.tsx';
import { request } from '../../graphql/request.ts';
import { moneyText } from '../../lib/figures/money.ts';
import { useViewer } from '../../lib/use-viewer.ts';
import { type Stated, StatementDocument } from './account-documents.ts';
import { ageCells, ageColumns, BesideOwed } from './accounts-list.tsx';
import styles from './books.module.css';
import { ExemptionsPart } from './exemptions-part.tsx';
import { invoiceHref } from './invoice-words.ts';
import { PayBackPart } from './pay-back-part.tsx';

const notes = [
  'Above 0 is owed to the shop; below 0 the payer has with it.',
  'A deposit counts once: when it came in. Set against an invoice it moves nothing on the same account.',
  'The classes of thirty days are common practice; what is due is by each invoice’s own day.',
];

/** A payer's statement of account between two days, and what is owed by age. */
export function AccountSheet({ id }: { id: string }) {
  const viewer = useViewer();
  const queries = useQueryClient();
  const [days, setDays] = useState<{ from: string; until: string }>({ from: '', until: '' });
  const asked = useQuery({
    queryKey: ['statement', id, days],
    queryFn: async () =>
      (
        await request(StatementDocument, {
          id,
          from: days.from || null,
          until: days.until || null,
        })
      ).node,
    enabled: viewer.data !== undefined,
    placeholderData: keepPreviousData,
  });
  const payer = asked.data?.__typename === 'Contact' ? asked.data : null;
  const problem = viewer.error ?? asked.error;
  const statement = payer?.statement;
  // Left empty, a day is the usual one: the first of the year, and today.
  const change = (part: Partial<typeof days>) => setDays((before) => ({ ...before, ...part }));
  return (
    <Sheet
      here="books"
      viewer={viewer.data?.person ?? null}
      title={payer === null ? 'Statement of account' : `Statement of ${payer.name}`}
      notes={notes}
      titleBlock={{
        what: 'Statement of account',
        cells: statement
          ? [
              { label: 'For', value: payer.name },
              { label: 'From', value: <CalendarDate date={statement.from} />, figures: true },
              { label: 'Until', value: <CalendarDate date={statement.until} />, figures: true },
              {
                label: 'Balance',
                value: `${moneyText(BigInt(statement.closing), statement.currency)} ${statement.currency}`,
                figures: true,
              },
              { label: 'Shop', value: viewer.data?.shop.name ?? '', span: 'half' },
            ]
          : [],
      }}
    >
      {payer !== null && statement ? (
        <div className={styles.sections}>
          <section className={styles.actions} aria-label="Which days" data-screen-only="">
            <div className={styles.fields}>
              <Field
                label="From"
                type="date"
                value={days.from || statement.from}
                max={statement.until}
                onChange={(event) => change({ from: event.currentTarget.value })}
              />
              <Field
                label="Until"
                type="date"
                value={days.until || statement.until}
                min={statement.from}
                onChange={(event) => change({ until: event.currentTarget.value })}
              />
            </div>
            <div className={styles.ways}>
              <ButtonLink href={statementHref(payer, 'a4')}>PDF, A4</ButtonLink>
              <ButtonLink href={statementHref(payer, 'letter')}>PDF, Letter</ButtonLink>
              <ButtonLink href="/books">All accounts</ButtonLink>
            </div>
          </section>
          <PartsList
            caption={`Owed today, by days past its day, ${statement.currency}`}
            columns={[
              { key: 'who', head: 'Who pays' },
              ...ageColumns.map((column) => ({ ...column, kind: 'figure' as const })),
              { key: 'total', head: 'Owed', kind: 'figure' },
            ]}
            rows={[
              {
                key: 'today',
                note: <BesideOwed account={statement.account} />,
                cells: { who: payer.name, ...ageCells(statement.account) },
              },
            ]}
          />
          <PayBackPart invoices={statement.payBackOn} />
          <Entries statement={statement} />
          <ExemptionsPart contactId={payer.id} />
        </div>
      ) : problem ? (
        <NoAnswer
          head="No statement to show"
          problem={problem}
          onAgain={() => {
            setDays({ from: '', until: '' });
            void queries.refetchQueries();
          }}
        />
      ) : asked.isSuccess ? (
        <Empty draws="sheet" action={<ButtonLink href="/books">To the books</ButtonLink>}>
          There is no such payer in this shop.
        </Empty>
      ) : (
        <Loading>Fetching the statement</Loading>
      )}
    </Sheet>
  );
}

const statementHref = ({ id, statement }: Stated, paper: string) =>
  `/paper/statement/${encodeURIComponent(id)}.pdf?${new URLSearchParams({
    paper,
    from: statement.from,
    until: statement.until,
  }).toString()}`;

/** What happened, day by day, each with what stands after it. */
function Entries({ statement }: { statement: Stated['statement'] }) {
  const { currency, entries, opening, closing, from, until } = statement;
  const money = (amount: string) => <Money minor={BigInt(amount)} currency={currency} />;
  return (
    <PartsList
      caption={`What moved the account, ${currency}`}
      columns={[
        { key: 'what', head: 'What' },
        { key: 'on', head: 'Day', kind: 'figure' },
        { key: 'amount', head: 'Change', kind: 'figure' },
        { key: 'balance', head: 'Balance', kind: 'figure' },
      ]}
      rows={[
        {
          key: 'opening',
          cells: {
            what: 'Brought forward',
            on: <CalendarDate date={from} />,
            balance: money(opening),
          },
        },
        ...entries.map(({ on, words, amount, balance, invoiceId }, index) => ({
          key: `${index} ${on} ${words}`,
          cells: {
            what: invoiceId == null ? words : <a href={invoiceHref(invoiceId)}>{words}</a>,
            on: <CalendarDate date={on} />,
            amount: amount === '0' ? undefined : money(amount),
            balance: money(balance),
          },
        })),
      ]}
      foot={[
        {
          key: 'closing',
          cells: {
            what: <b>Balance</b>,
            on: <CalendarDate date={until} />,
            balance: <b>{money(closing)}</b>,
          },
        },
      ]}
    />
  );
}

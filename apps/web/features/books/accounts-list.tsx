'use client';

import { useQuery } from '@tanstack/react-query';
import { ErrorNote } from '../../components/ErrorNote.tsx';
import { Money } from '../../components/Figure.tsx';
import { PartsList } from '../../components/PartsList.tsx';
import { request } from '../../graphql/request.ts';
import { type AccountShown, AccountsDocument } from './account-documents.ts';
import styles from './books.module.css';

/** The classes of age: thirty days at a time (common practice, no source). */
export const ageColumns = [
  { key: 'notDue', head: 'Not due' },
  { key: 'to30', head: '1 to 30 days' },
  { key: 'to60', head: '31 to 60' },
  { key: 'to90', head: '61 to 90' },
  { key: 'over90', head: 'Over 90' },
] as const;

/** The cells of an account: what is owed by age, and all of it. */
export function ageCells({ ages, currency }: AccountShown) {
  const money = (amount: string) =>
    // Nothing is left out, so that stacked rows on a telephone name only what there is.
    amount === '0' ? undefined : <Money minor={BigInt(amount)} currency={currency} />;
  return {
    ...Object.fromEntries(ageColumns.map(({ key }) => [key, money(ages[key])])),
    total: <Money minor={BigInt(ages.total)} currency={currency} />,
  };
}

/** What stands beside what is owed, in words. */
export function BesideOwed({ account }: { account: AccountShown }) {
  const said = [
    ['deposits held', account.held],
    ['to be paid back', account.toPayBack],
  ].filter(([, amount]) => amount !== '0');
  if (said.length === 0) return null;
  return said.map(([words, amount], index) => (
    <span key={words}>
      {index === 0 ? '' : ' · '}
      {words} <Money minor={BigInt(amount ?? '0')} currency={account.currency} />
    </span>
  ));
}

/** What is owed to the shop: by payer, and by how long it is past its day. */
export function AccountsList() {
  const accounts = useQuery({
    queryKey: ['accounts'],
    queryFn: async () => (await request(AccountsDocument)).accounts,
  });
  if (accounts.error !== null)
    return <ErrorNote head="No accounts to show">{accounts.error.message}</ErrorNote>;
  if (accounts.data === undefined) return null;
  const { payers, whole } = accounts.data;
  if (payers.length === 0)
    return (
      <section>
        <h2 className={styles.head}>Owed, by days past its day</h2>
        <p className={styles.second}>Nothing is owed to the shop, and no deposit is held.</p>
      </section>
    );
  const currency = whole.length === 1 ? `, ${whole[0]?.currency ?? ''}` : '';
  return (
    <PartsList
      caption={`Owed, by days past its day${currency}`}
      columns={[
        { key: 'who', head: 'Who pays' },
        ...ageColumns.map((column) => ({ ...column, kind: 'figure' as const })),
        { key: 'total', head: 'Owed', kind: 'figure' },
      ]}
      rows={payers.map((account) => ({
        key: `${account.contact?.id} ${account.currency}`,
        note: <BesideOwed account={account} />,
        cells: {
          who: (
            <a className={styles.name} href={`/books/accounts/${account.contact?.id}`}>
              {account.contact?.name}
            </a>
          ),
          ...ageCells(account),
        },
      }))}
      foot={whole.map((account) => ({
        key: account.currency,
        note: <BesideOwed account={account} />,
        cells: { who: `All together, ${account.currency}`, ...ageCells(account) },
      }))}
    />
  );
}

import { type Ages, ageing, type Minor, minor, sumOf } from '@fairlead/money';
import { allow, type Context } from '../context.ts';
import { sayDay } from '../given.ts';
import { shopToday } from '../today.ts';
import { type HeldDeposits, heldDeposits, type OpenInvoice, openInvoices } from './open-amounts.ts';

/** Where somebody who pays stands, in one currency. */
export interface Account {
  contactId: string;
  currency: string;
  ages: Ages;
  /** Deposits that are not set against an invoice yet. */
  held: Minor;
  /** On invoices on which more was paid than is owed. */
  toPayBack: Minor;
  /** Owed, less what is held and what is to be paid back. */
  balance: Minor;
}

/** Where everybody stands on whose account anything is open, the one who owes the most first, and all of them together by currency. */
export async function loadAccounts(context: Context) {
  await allow(context, 'front_desk', 'manager');
  const today = sayDay(await shopToday(context));
  const open = await openInvoices(context.read, null);
  const held = await heldDeposits(context.read, null);
  const payers = unique(
    [...open, ...held].map(({ contactId, currency }) => `${contactId} ${currency}`),
  )
    .map((key) => {
      const [contactId = '', currency = ''] = key.split(' ');
      const theirs = (each: { contactId: string; currency: string }) =>
        each.contactId === contactId && each.currency === currency;
      return accountOf({ contactId, currency }, open.filter(theirs), held.filter(theirs), today);
    })
    .sort((one, other) => Number(other.ages.total - one.ages.total));
  const whole = unique(payers.map(({ currency }) => currency)).map((currency) => {
    const of = (each: { currency: string }) => each.currency === currency;
    return accountOf({ contactId: '', currency }, open.filter(of), held.filter(of), today);
  });
  return { payers, whole };
}

export function accountOf(
  who: Pick<Account, 'contactId' | 'currency'>,
  open: readonly OpenInvoice[],
  deposits: readonly HeldDeposits[],
  today: string,
): Account {
  const ages = ageing(
    open.flatMap(({ owed, dueOn }) =>
      owed > 0n ? [{ owed: minor(owed), dueOn: dueOn && sayDay(dueOn) }] : [],
    ),
    today,
  );
  const toPayBack = sumOf(open.flatMap(({ owed }) => (owed < 0n ? [minor(-owed)] : [])));
  const held = sumOf(deposits.map((each) => minor(each.held)));
  return { ...who, ages, held, toPayBack, balance: minor(ages.total - held - toPayBack) };
}

const unique = (all: readonly string[]) => [...new Set(all)];

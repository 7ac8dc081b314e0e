import type { Capacity } from '../../graphql/generated/graphql.ts';
import { moneyText } from '../../lib/figures/money.ts';
import { capacityWords } from './quote-words.ts';

interface Standing {
  capacity: Capacity;
  mayAuthorise?: string | null | undefined;
  contact: { id: string; name: string };
}

/** Whether somebody may say yes to anything; without a figure there is no limit. */
export const mayAuthoriseAny = ({ mayAuthorise }: Pick<Standing, 'mayAuthorise'>): boolean =>
  typeof mayAuthorise !== 'string' || BigInt(mayAuthorise) > 0n;

/**
 * Each contact of an aircraft once, with all that they are to it and how much they may authorise.
 * Who may authorise anything comes first, because their answer opens work.
 */
export function contactOptions(contacts: readonly Standing[], currency: string) {
  const said = new Map<string, { name: string; roles: string[]; may: boolean }>();
  for (const { capacity, mayAuthorise, contact } of contacts) {
    const known = said.get(contact.id) ?? { name: contact.name, roles: [], may: false };
    const limit =
      typeof mayAuthorise !== 'string'
        ? ''
        : BigInt(mayAuthorise) > 0n
          ? `, up to ${moneyText(BigInt(mayAuthorise), currency)}`
          : ', authorises nothing';
    known.roles.push(`${capacityWords[capacity]}${limit}`);
    known.may ||= mayAuthoriseAny({ mayAuthorise });
    said.set(contact.id, known);
  }
  return [...said]
    .toSorted(([, one], [, other]) => Number(other.may) - Number(one.may))
    .map(([value, { name, roles }]) => ({ value, words: `${name} (${roles.join('; ')})` }));
}

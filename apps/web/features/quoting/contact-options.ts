import type { Capacity } from '../../graphql/generated/graphql.ts';
import { moneyText } from '../../lib/figures/money.ts';
import { capacityWords } from './quote-words.ts';

interface Standing {
  capacity: Capacity;
  mayAuthorise?: string | null | undefined;
  contact: { id: string; name: string };
}

/** Each contact of an aircraft once, with all that they are to it and how much they may authorise. */
export function contactOptions(contacts: readonly Standing[], currency: string) {
  const said = new Map<string, { name: string; roles: string[] }>();
  for (const { capacity, mayAuthorise, contact } of contacts) {
    const known = said.get(contact.id) ?? { name: contact.name, roles: [] };
    const limit =
      typeof mayAuthorise === 'string'
        ? `, up to ${moneyText(BigInt(mayAuthorise), currency)}`
        : '';
    known.roles.push(`${capacityWords[capacity]}${limit}`);
    said.set(contact.id, known);
  }
  return [...said].map(([value, { name, roles }]) => ({
    value,
    words: `${name} (${roles.join('; ')})`,
  }));
}

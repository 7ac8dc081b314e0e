/** The demo shop's files, as the tests of them read them. */
import { readFileSync } from 'node:fs';
import { readDemo } from '../../../prisma/demo/data.ts';

export const demo = new URL('../../../prisma/demo/', import.meta.url);
export const people = readDemo('people.json');
export const { contacts, authorities } = readDemo('contacts.json');
export const models = readDemo('models.json');
export const aircraft = readDemo('aircraft.json');
export const { tasks, cautions, defaultConditions } = readDemo('tasks.json');
export const { places } = readDemo('places.json');
export const { packages } = readDemo('packages.json');
export const { parts, suppliers } = readDemo('parts.json');
export const hangar = readDemo('hangar.json');
export const { quotes, orders } = readDemo('orders.json');
export const history = readFileSync(new URL('history.csv', demo), 'utf8');
export const historyRows = history
  .trimEnd()
  .split('\n')
  .slice(1)
  .map((line) => line.split(','));

export const keysOf = (list: { key: string }[]): Set<string> =>
  new Set(list.map((item) => item.key));
export const personKeys = keysOf(people);
export const contactKeys = keysOf(contacts);
export const modelKeys = keysOf(models);
export const taskKeys = keysOf(tasks);
export const partKeys = keysOf(parts);
export const standKeys = keysOf(hangar.stands);
export const orderKeys = keysOf(orders);
export const tails = new Set(aircraft.map((one) => one.registration));
export const lots = new Map(
  parts.flatMap((part) => part.lots.map((lot) => [lot.tag, { part, lot }])),
);

/** Names in `wanted` that `known` does not hold. */
export const unknown = (
  wanted: Iterable<string | null | undefined>,
  known: Set<string>,
): string[] =>
  [...wanted].filter((key): key is string => typeof key === 'string' && !known.has(key));

/** Decimal text with two decimals as cents, exactly. */
export const cents = (text: string): bigint => BigInt(text.replace('.', ''));

export const findings = orders.flatMap((order) => order.findings);
export const offered = [
  ...quotes.flatMap((quote) => quote.revisions),
  ...findings.flatMap((finding) => finding.offered ?? []),
];

import type { Choice, WaitingFor } from '../../graphql/generated/graphql.ts';
import { dayText } from '../../lib/figures/dates.ts';
import { moneyText } from '../../lib/figures/money.ts';
import type { Offer, OwnerOrder } from './owner-page.ts';

/** The answers as they stand on the rows. */
export const choiceWords: Record<Choice, string> = {
  go_ahead: 'Go ahead',
  not_now: 'Not now',
  talk_first: 'Talk to me first',
};

const waitsFor: Record<WaitingFor, string> = {
  parts: 'parts',
  owner: 'your answer',
  bay: 'a place in the hangar',
  help: 'a second pair of hands',
  inspection: 'an inspector',
};

const many = (count: number, one: string, more = `${one}s`) =>
  `${count} ${count === 1 ? one : more}`;

/** How far the work has come, a sentence each. */
export function progressWords(order: OwnerOrder, timeZone: string): string[] {
  const { state, items } = order;
  const day = (at: string) => dayText(at, timeZone);
  if (state === 'cancelled') return ['This job was cancelled.'];
  if (state === 'planned')
    return [
      order.plannedFor === null
        ? 'Planned; no day is set yet.'
        : `Planned for ${day(order.plannedFor)}.`,
    ];
  const sentences = [];
  if (order.arrivedAt !== null && ['here', 'ready_to_sign'].includes(state))
    sentences.push(`In the hangar since ${day(order.arrivedAt)}.`);
  const done = items.filter((item) => item.state === 'done' || item.state === 'inspected').length;
  const putOff = items.filter((item) => item.state === 'put_off').length;
  sentences.push(
    `${done} of ${many(items.length, 'item')} done${putOff === 0 ? '' : `, ${putOff} put off`}.`,
  );
  const reasons = (Object.keys(waitsFor) as WaitingFor[]).flatMap((reason) => {
    const count = items.filter(({ waitingFor }) => waitingFor === reason).length;
    return count === 0
      ? []
      : [`${count} ${count === 1 ? 'waits' : 'wait'} for ${waitsFor[reason]}`];
  });
  if (reasons.length > 0) sentences.push(`${reasons.join(', ')}.`);
  if (state === 'ready_to_sign') sentences.push('The inspector signs next.');
  if (order.outcome === 'airworthy') sentences.push('Signed: approved for return to service.');
  if (order.outcome === 'not_airworthy_list_given')
    sentences.push('Signed: not approved for return to service; the list of why was given to you.');
  if (state === 'closed') sentences.push('Handed back.');
  return sentences;
}

/** "1 finding waits for your answer." Null where nothing does. */
export function waitingWords(offers: readonly Offer[]): string | null {
  const open = offers.filter(({ state }) => state === 'sent');
  const findings = open.filter(({ finding }) => finding !== null).length;
  const visits = open.length - findings;
  const what = [
    ...(visits === 0 ? [] : [many(visits, 'quote')]),
    ...(findings === 0 ? [] : [many(findings, 'finding')]),
  ];
  return what.length === 0
    ? null
    : `${what.join(' and ')} ${open.length === 1 ? 'waits' : 'wait'} for your answer.`;
}

/** How far a yes goes where nobody types anything else: nine in ten, or the most that this person may authorise. */
export function offeredCeiling({ high }: Pick<Offer, 'high'>, limit: string | null): bigint {
  const nine = BigInt(high);
  return limit !== null && BigInt(limit) < nine ? BigInt(limit) : nine;
}

/** "3,400.00 USD" */
export const amountWords = (minor: string | bigint, code: string) =>
  `${moneyText(BigInt(minor), code)} ${code}`;

/** What follows from leaving something unairworthy as it is; information, and no ruling. */
export const leavingIt = [
  'If you say “Not now”, it stays as it is, and it stays listed.',
  'Whoever makes an inspection and finds the aircraft unairworthy, or not in keeping with what its certificate and the directives ask, gives you a signed and dated list of what was found (14 CFR 43.11(b)).',
  'Equipment that may stay inoperative under 14 CFR 91.213(d)(2) is placarded “Inoperative”, where that is allowed, and stands on the same list.',
];

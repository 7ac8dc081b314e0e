import type { Channel, Choice } from '@fairlead/database';
import { currency, formatMoney, minor, minorUnits } from '@fairlead/money';

const choiceWords: Record<Choice, string> = {
  go_ahead: 'go ahead',
  not_now: 'not now',
  talk_first: 'talk to me first',
};
const channelWords: Record<Channel, string> = {
  in_person: 'in person',
  telephone: 'by telephone',
  email: 'by e-mail',
  owner_page: "on the owner's page",
};

export interface SaidDecision {
  choice: Choice;
  channel: Channel;
  ceilingMinor: bigint | null;
  currency: string;
  decidedAt: Date;
  contact: { name: string };
}

/** "Mr Sand said go ahead up to 1,900.00 USD, by telephone, on 2031-05-04 08:30 UTC" */
export function sayDecision({
  choice,
  channel,
  ceilingMinor,
  currency: code,
  decidedAt,
  contact,
}: SaidDecision): string {
  const far = ceilingMinor === null ? '' : ` up to ${sayAmount(ceilingMinor, code)}`;
  const when = decidedAt.toISOString().slice(0, 16).replace('T', ' ');
  return `${contact.name} said ${choiceWords[choice]}${far}, ${channelWords[channel]}, on ${when} UTC`;
}

/** "1,900.00 USD" */
export const sayAmount = (amount: bigint, code: string) =>
  `${formatMoney(minor(amount), currency(code))} ${code}`;

/** "1,900 USD": an estimate to the cent would claim more than it knows. */
export function sayWhole(amount: bigint, code: string): string {
  const one = 10n ** BigInt(minorUnits[currency(code)]);
  const whole = ((amount + one / 2n) / one) * one;
  return `${formatMoney(minor(whole), currency(code)).replace(/\.0+$/, '')} ${code}`;
}

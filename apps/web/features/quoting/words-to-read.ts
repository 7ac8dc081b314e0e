import { calendarDateText } from '../../lib/figures/dates.ts';
import { moneyText, roundMoneyText } from '../../lib/figures/money.ts';
import type { QuoteSheetData, RevisionData } from './quote-documents.ts';

/** What is read out to the owner before they answer: what, for which aircraft, and what it may cost. */
export function wordsToRead(
  { title, aircraft, finding, more }: QuoteSheetData,
  { currency, likely, high, expiresOn, lines, terms }: RevisionData,
): string {
  const until = ` The offer holds until ${calendarDateText(expiresOn)}.`;
  // No price of something new, but how much further the work may go: its terms say it.
  if (more) return `${title}, ${aircraft.registration}. ${terms}${until}`;
  const money = (minor: string) => `${roundMoneyText(BigInt(minor), currency)} ${currency}`;
  const cost =
    likely === high
      ? `The price is ${money(likely)} before tax, firm.`
      : `It is as likely to come out over ${money(likely)} before tax as under it; nine in ten such jobs should come out under ${money(high)}.`;
  const what =
    finding === null
      ? `${title}, ${aircraft.registration}.`
      : `On ${aircraft.registration} we found: ${finding.title}.${finding.meaning === '' ? '' : ` ${finding.meaning}`}`;
  const kept = lines.map(({ title: sold, limit }) =>
    limit === null
      ? ''
      : ` “${sold}” will not cost you more than ${moneyText(BigInt(limit), currency)} ${currency} before tax, its parts in it: we carry what goes past that.`,
  );
  return `${what} ${cost}${kept.join('')}${until}`;
}

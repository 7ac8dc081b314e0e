import { sayAmount } from '../quoting/index.ts';

const months = ['Jan', 'Feb', 'Mar', 'Apr', 'May', 'Jun', 'Jul', 'Aug', 'Sep', 'Oct', 'Nov', 'Dec'];

/** A civil day kept as midnight UTC, in words: 4 May 2031. */
export const dayInWords = (day: Date) =>
  `${day.getUTCDate()} ${months[day.getUTCMonth()]} ${day.getUTCFullYear()}`;

export interface ShownOffer {
  title: string;
  registration: string;
  finding: { title: string; meaning: string } | null;
  /** What is done, line by line, without the parts. */
  work: readonly string[];
  /** What is sold not to exceed a price, net, minor units. */
  limits: readonly { title: string; limitMinor: bigint }[];
  currency: string;
  likelyMinor: bigint;
  highMinor: bigint;
  expiresOn: Date;
  /** It asks for more on what is agreed already: its terms say how much, and there is no price of something new. */
  more: boolean;
  terms: string;
}

const NAMED = 5;

/** "Replace the hose; Test run; 2 more" */
const listed = (work: readonly string[]) =>
  [...work.slice(0, NAMED), ...(work.length > NAMED ? [`${work.length - NAMED} more`] : [])].join(
    '; ',
  );

/** What stands above the three answers, and is kept word for word with the one that is given. */
export function wordsShown(offer: ShownOffer): string {
  const { title, registration, finding, work, limits, currency } = offer;
  const { likelyMinor, highMinor, expiresOn } = offer;
  const what = finding
    ? `On ${registration} we found: ${finding.title}.${finding.meaning === '' ? '' : ` ${finding.meaning}`} To correct it: ${listed(work)}.`
    : `${registration}: ${title}.`;
  const firm = likelyMinor === highMinor;
  const cost = offer.more
    ? offer.terms
    : firm
      ? `The price is ${sayAmount(likelyMinor, currency)} before tax, firm.`
      : `It is as likely to come out over ${sayAmount(likelyMinor, currency)} before tax as under it; nine in ten such jobs should come out under ${sayAmount(highMinor, currency)}.`;
  const kept = limits.map(
    (one) =>
      ` “${one.title}” will not cost you more than ${sayAmount(one.limitMinor, currency)} before tax, its parts in it: we carry what goes past that.`,
  );
  return `${what} ${cost}${kept.join('')} “Go ahead” goes as far as the amount you give, before tax; work past it waits for another yes. The offer holds until ${dayInWords(expiresOn)}.`;
}

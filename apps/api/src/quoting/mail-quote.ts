import type { Tx } from '@fairlead/database';
import type { SigningKey } from '@fairlead/proof';
import { civilDay } from '../civil-day.ts';
import { Refused } from '../errors.ts';
import { globalId } from '../ids.ts';
import { newId } from '../new-id.ts';
import { dayInWords, linkFor, loadOffer, wordsOf } from '../owner/index.ts';
import { LINK, mailSecret, queueMail } from '../post/index.ts';
import { contactStanding } from './contact-standing.ts';
import type { HeldQuote } from './newest-revision.ts';

/** For so many days the link in a quote's mail opens: the order that a yes makes is followed on the same page. */
const LINK_DAYS = 90;

/**
 * Mails a quote that is being sent to the contact that it is for: its words, its PDF, and their private link. In the transaction
 * that records the sending, so that neither is without the other.
 */
export async function mailQuote(
  tx: Tx,
  quote: HeldQuote,
  { personId, key, now }: { personId: string; key: SigningKey; now: Date },
): Promise<void> {
  const { number, title, newest, aircraft } = quote;
  const [contact, shop, offer] = await Promise.all([
    tx.contact.findUniqueOrThrow({
      where: { id: quote.contactId },
      select: { id: true, name: true, email: true },
    }),
    tx.shop.findFirstOrThrow({ select: { name: true, place: true, timeZone: true } }),
    loadOffer(tx, quote.id),
  ]);
  if (!contact.email)
    throw new Refused(
      'AGAINST_RULE',
      `Quote ${number} was not sent: ${contact.name} has no e-mail address. Give them one, or say how else it goes out.`,
      'channel',
    );
  // Whoever gets a link that answers for an owner has to be somebody to the aircraft.
  await contactStanding(tx, {
    aircraftId: quote.aircraftId,
    contactId: contact.id,
    day: civilDay(now, shop.timeZone),
  });
  const id = newId();
  const until = await linkFor(tx, {
    orderId: quote.orderId,
    quoteId: quote.id,
    contactId: contact.id,
    secret: mailSecret(key, id),
    days: LINK_DAYS,
    now,
  });
  const what = `Quote ${number}, revision ${newest.revision}`;
  await queueMail(tx, {
    id,
    to: { address: contact.email, name: contact.name },
    subject: `${what}: ${aircraft.registration}, ${title}`,
    paragraphs: [
      `${contact.name}, this is ${what.toLowerCase()}, of ${shop.name}.`,
      (offer && wordsOf(offer))?.words ?? '',
      'You can read it, with its photos where there are some, and answer on your own page:',
      LINK,
      `Whoever has this address can answer for you: keep it to yourself. It opens until ${dayInWords(civilDay(until, shop.timeZone))}.`,
      'The quote goes with this mail as a PDF.',
      `${shop.name}\n${shop.place}`,
    ],
    link: 'owner',
    papers: [{ paper: 'quote', subject: globalId('Quote', quote.id) }],
    about: {
      words: `${what}, ${aircraft.registration}`,
      quoteId: quote.id,
      ...(quote.orderId && { orderId: quote.orderId }),
    },
    queuedById: personId,
    now,
  });
}

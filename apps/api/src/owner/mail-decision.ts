import type { Tx } from '@fairlead/database';
import { mailAddress } from '../mail-address.ts';
import { queueMail } from '../post/index.ts';
import { sayDecision } from '../quoting/index.ts';

/** Tells the owner and the desk of an answer that was given on the owner's page; whoever has no address is told nothing. */
export async function mailDecision(tx: Tx, quoteId: string, now: Date): Promise<void> {
  const quote = await tx.quote.findUniqueOrThrow({
    where: { id: quoteId },
    select: {
      ...{ number: true, title: true, orderId: true },
      aircraft: { select: { registration: true } },
    },
  });
  const decision = await tx.decision.findFirstOrThrow({
    where: { revision: { quoteId } },
    orderBy: [{ recordedAt: 'desc' }, { id: 'desc' }],
    include: {
      contact: { select: { name: true, email: true } },
      revision: { select: { revision: true } },
    },
  });
  const shop = await tx.shop.findFirstOrThrow({ select: { name: true, place: true, email: true } });
  const { contact } = decision;
  const what = `quote ${quote.number}, revision ${decision.revision.revision}`;
  const job = `${quote.aircraft.registration}, ${quote.title}`;
  const said = sayDecision(decision);
  const shown = `What stood on the page above the answer:\n${decision.wordsShown}`;
  const about = {
    words: `Answer to ${what}, ${quote.aircraft.registration}`,
    quoteId,
    ...(quote.orderId && { orderId: quote.orderId }),
  };
  const send = async (
    to: { address: string | null; name: string },
    subject: string,
    first: string,
  ) => {
    // An answer counts whether or not a mail can tell of it.
    if (to.address === null || mailAddress(to.address) === null) return;
    await queueMail(tx, {
      to: { address: to.address, name: to.name },
      subject,
      paragraphs: [first, `${said}.`, shown, `${shop.name}\n${shop.place}`],
      about,
      queuedById: null,
      now,
    });
  };
  await send(
    { address: contact.email, name: contact.name },
    `Your answer to ${what}: ${job}`,
    `${contact.name}, ${shop.name} has your answer to ${what}, for ${job}. If it was not you who gave it, call the shop at once.`,
  );
  await send(
    { address: shop.email, name: shop.name },
    `${contact.name} answered ${what}: ${job}`,
    `On the owner's page somebody answered ${what}, for ${job}.`,
  );
}

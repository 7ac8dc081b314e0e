import { randomUUID } from 'node:crypto';
import { Choice, type Client, inLink, inShop } from '@fairlead/database';
import { currency, minorUnits, parseAmount } from '@fairlead/money';
import { notFound, Refused, refusalFrom } from '../errors.ts';
import { keyOf } from '../ids.ts';
import { takeDecision } from '../quoting/index.ts';
import { shopKey } from '../shop-key.ts';
import { mailDecision } from './mail-decision.ts';
import { loadOffer, wordsOf } from './offers.ts';
import { hashOf } from './secret.ts';

/** What the form on the page sends. */
export interface FormAnswer {
  quote: string;
  revision: string;
  /** Digest of the words that stood above the answers. */
  shown: string;
  choice: string;
  /** An amount as somebody types it, for a yes; empty: as far as nine in ten should come out under. */
  ceiling: string;
}

/**
 * Keeps an owner's answer that came through their link. What the link reaches is asked under the link's own role;
 * the answer is written under the shop's, by the same rules as at the desk.
 *
 * @returns the number of the quote, or null where the link opens nothing
 */
export async function decideByLink(
  { client, uploadsDir }: { client: Client; uploadsDir: string },
  secret: string,
  form: FormAnswer,
  now: Date,
): Promise<number | null> {
  const quoteId = keyOf('Quote', form.quote, 'quote');
  const secretHash = hashOf(secret);

  // load
  const reached = await inLink(client, secretHash, async (tx, link) => ({
    link,
    offer: await loadOffer(tx, quoteId),
  }));
  if (!reached) return null;
  const { link, offer } = reached;
  const said = offer && wordsOf(offer);
  if (!offer || !said) throw notFound('offer');

  // decide
  const choice = Object.values(Choice).find((each) => each === form.choice);
  if (!choice)
    throw new Refused('BAD_INPUT', 'Choose one of: go ahead, not now, talk to me first.', 'choice');
  if (form.revision !== `${said.revision}`)
    throw new Refused(
      'CONFLICT',
      `Nothing was recorded: the shop has changed offer ${offer.number} since you opened the page. It is at revision ${said.revision} now; what changed is written with it.`,
      'revision',
    );
  if (form.shown !== said.digest)
    throw new Refused(
      'CONFLICT',
      `Nothing was recorded: what the shop says about offer ${offer.number} has changed since you opened the page. Read it again, then answer.`,
      'shown',
    );
  const ceiling = choice === 'go_ahead' ? typedCeiling(form.ceiling, said.currency) : null;

  // save
  const key = await shopKey(uploadsDir, link.shopId);
  try {
    await inShop(
      client,
      { shopId: link.shopId, personId: null, requestId: randomUUID() },
      async (tx) => {
        // Taken back while the answer was on its way: it counts no more.
        const open = await tx.ownerLink.findFirst({
          where: { secretHash, revokedAt: null, expiresAt: { gt: now } },
          select: { id: true },
        });
        if (!open) throw new Refused('NOT_FOUND', 'This link was taken back or has run out.');
        const { contactId } = link;
        const answers = () => tx.decision.count({ where: { revision: { quoteId } } });
        const before = await answers();
        await takeDecision(
          tx,
          {
            ...{ quoteId, revision: said.revision, contactId, choice, ceiling },
            ...{ channel: 'owner_page', wordsShown: said.words, decidedAt: null, note: null },
          },
          { now, recordedById: null, key },
        );
        // The same answer sent twice is one answer, and is told of once.
        if ((await answers()) > before) await mailDecision(tx, quoteId, now);
      },
    );
  } catch (error) {
    const refused = refusalFrom(error);
    if (refused?.code === 'CONFLICT' && refused.field === 'revision')
      throw new Refused(
        'CONFLICT',
        `Nothing was recorded: the shop is changing offer ${offer.number} just now. Wait for the new one, or talk to them.`,
        'revision',
      );
    throw refused ?? error;
  }
  return offer.number;
}

/** "1,240.50", "1240.5" and "1240" are amounts; null for an empty field. */
function typedCeiling(typed: string, code: string): bigint | null {
  const plain = typed.trim().replaceAll(',', '');
  if (plain === '') return null;
  const places = minorUnits[currency(code)];
  if (!new RegExp(`^\\d{1,12}(\\.\\d{0,${places}})?$`).test(plain))
    throw new Refused(
      'BAD_INPUT',
      `An amount of "${typed.slice(0, 40)}" was refused: needed is one such as 1,240.50, in ${code}.`,
      'ceiling',
    );
  return parseAmount(plain.replace(/\.$/, ''), currency(code));
}

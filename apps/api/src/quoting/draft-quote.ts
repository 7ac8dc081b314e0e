import { allow, type Context } from '../context.ts';
import { Refused } from '../errors.ts';
import { promiseForOffer } from '../hangar/index.ts';
import { composeRevision } from './compose-revision.ts';
import { contactStanding } from './contact-standing.ts';
import { loadOffer } from './load-offer.ts';
import type { OfferInput } from './offer-input.ts';
import { expiryOf, textUpTo } from './offer-terms.ts';
import { promisedOf } from './promised-offer.ts';
import { saveRevision } from './save-revision.ts';

export interface DraftQuoteInput extends OfferInput {
  contactId: string;
  title: string | null;
  expiresOn: Date | null;
  terms: string | null;
  /** Made by the page. It becomes the quote's key, so that a draft sent twice is one quote. */
  clientEventId: string | null;
}

const uuid = /^[0-9a-f]{8}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{12}$/i;

/** Drafts a quote for a visit, or for one finding of a visit under way. Answers with its key. */
export async function draftQuote(context: Context, input: DraftQuoteInput): Promise<string> {
  const { personId } = await allow(context, 'front_desk', 'manager');
  const { clientEventId } = input;
  if (clientEventId && !uuid.test(clientEventId))
    throw new Refused(
      'BAD_INPUT',
      `"${clientEventId.slice(0, 80)}" is not a UUID: needed is one that the page makes for each new quote.`,
      'clientEventId',
    );

  // load
  const first = await draftedBefore(context, input);
  if (first) return first;
  const offer = await loadOffer(context, input);
  const { offered, model, prices, title, orderId, today } = offer;
  await refuseWithdrawn(context, input.packageId);
  await contactStanding(context.read, { ...input, day: today });

  // decide
  const composed = composeRevision(offered, prices, offer.billing);
  const promise = await promiseForOffer(context.read, promisedOf(offer), context.now());
  const expiresOn = expiryOf(input.expiresOn, today);
  const terms = textUpTo(input.terms, 4000, 'terms');
  const called = textUpTo(input.title, 200, 'title') || title;

  // save
  try {
    return await context.write(async (tx) => {
      const { aircraftId, contactId, packageId, findingId } = input;
      const { id } = await tx.quote.create({
        data: {
          ...(clientEventId && { id: clientEventId }),
          aircraftId,
          contactId,
          packageId,
          findingId,
          orderId,
          title: called,
          createdAt: context.now(),
        },
        select: { id: true },
      });
      await saveRevision(tx, {
        quoteId: id,
        revision: 1,
        draftedById: personId,
        draftedAt: context.now(),
        expiresOn,
        terms,
        composed,
        model,
        promise,
      });
      return id;
    });
  } catch (error) {
    // The same draft may have been sent twice at the same moment.
    const meanwhile =
      error instanceof Refused && error.code === 'CONFLICT'
        ? await draftedBefore(context, input)
        : null;
    if (meanwhile) return meanwhile;
    throw error;
  }
}

/** The quote that this very draft made already, if it did. */
async function draftedBefore(
  { read }: Context,
  { clientEventId, aircraftId }: DraftQuoteInput,
): Promise<string | null> {
  if (!clientEventId) return null;
  const known = await read.quote.findUnique({
    where: { id: clientEventId },
    select: { id: true, number: true, aircraftId: true },
  });
  if (known && known.aircraftId !== aircraftId)
    throw new Refused(
      'CONFLICT',
      `This draft was sent before, for another aircraft: it is quote ${known.number}. Needed is a new clientEventId for a new quote.`,
      'clientEventId',
    );
  return known?.id ?? null;
}

/** A package that the shop no longer offers makes no new quote; the revisions of an older one go on. */
async function refuseWithdrawn({ read }: Context, packageId: string | null): Promise<void> {
  const withdrawn =
    packageId &&
    (await read.package.findFirst({
      where: { id: packageId, offered: false },
      select: { title: true },
    }));
  if (withdrawn)
    throw new Refused(
      'AGAINST_RULE',
      `“${withdrawn.title}” is no longer offered: choose another package, or offer it again on its own sheet.`,
      'packageId',
    );
}

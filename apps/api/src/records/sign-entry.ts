import { createHash } from 'node:crypto';
import type { Tx } from '@fairlead/database';
import { allow, type Context } from '../context.ts';
import { Refused } from '../errors.ts';
import { givenText, sayMinute } from '../given.ts';
import { linkRecords } from '../record-chain.ts';
import { shopKey } from '../shop-key.ts';
import { orderState } from '../states.ts';
import { shopToday } from '../today.ts';
import { digestOfSigned, type WhatIsSigned } from '../what-is-signed.ts';
import { holdForSigning, type OrderToSign, type SignedEntry, standing } from './order-to-sign.ts';
import { type EntryAsked, loadEntry, prepare } from './prepare.ts';

export interface SignEntryInput extends EntryAsked {
  /** The signer's own name, as they typed it: the deliberate act. */
  signature: string;
  /** The text as it was read; signing another is refused. */
  text: string;
  /** What saying again who one is was answered with, for this entry. Null only where the demo plays its people. */
  again: string | null;
}

const alike = (text: string) => text.normalize('NFC').replace(/\s+/g, ' ').trim();

/** Signs the entry of an order in one book. What is signed is composed again, and must be what was read. */
export async function signEntry(context: Context, input: SignEntryInput): Promise<string> {
  const { personId, shopId } = await allow(context, 'inspector');
  const today = await shopToday(context);
  givenText(input.signature, 'signature', { most: 200 });
  if (input.text.length > 100_000)
    throw new Refused(
      'TOO_LARGE',
      `The text has ${input.text.length} characters: at most 100000.`,
      'text',
    );

  const key = await shopKey(context.uploadsDir, shopId);
  return context.write(async (tx) => {
    // load
    await holdForSigning(tx, input.orderId);
    const loaded = await loadEntry(tx, input, today);
    const { order, book, corrects } = loaded;
    // decide
    const twin = standing(order, book.id).find(
      (entry) => entry.signedById === personId && alike(entry.text) === alike(input.text),
    );
    if (twin) return twin.id;
    refuseState(order, corrects !== null);
    refuseSignedAlready(order, book.id, corrects);
    const { entry, signer } = await prepare(tx, loaded, personId, today);
    const signatureBy = entry.rule === 'inspection' ? '14 CFR 43.11(a)(3)' : '14 CFR 43.9(a)(4)';
    if (!signer.may)
      throw new Refused(
        'AGAINST_RULE',
        `${signer.because}. The entry stays without the signature of ${signatureBy}.`,
        'signature',
      );
    const [first, ...more] = entry.missing;
    if (first)
      throw new Refused(
        'AGAINST_RULE',
        `The entry cannot be signed: it lacks ${first.what} (${first.paragraph}). ${first.remedy}${more.length > 0 ? ` ${more.length} more ${more.length === 1 ? 'thing is' : 'things are'} missing: ${[...new Set(more.map(({ paragraph }) => paragraph))].join(', ')}.` : ''}`,
      );
    if (entry.rule === 'maintenance' && input.outcome === 'not_airworthy_list_given')
      throw new Refused(
        'AGAINST_RULE',
        'A list of discrepancies goes with an inspection (14 CFR 43.11(b)); this entry is for work alone: sign it for the work performed.',
        'outcome',
      );
    if (alike(input.signature) !== alike(signer.name))
      throw new Refused(
        'BAD_INPUT',
        `The signature reads “${input.signature.slice(0, 80)}”: needed is your own name, ${signer.name}, typed in full (${signatureBy}).`,
        'signature',
      );
    const { text, completedOn, tisHundredths } = entry;
    if (text === null || completedOn === null || signer.certificateKind === null)
      throw new Error('an entry with nothing missing has its text, day and certificate');
    if (alike(text) !== alike(input.text))
      throw new Refused(
        'CONFLICT',
        'The entry changed since you read it: read it again before you sign.',
        'text',
      );
    // save
    if (tisHundredths === null)
      throw new Refused(
        'AGAINST_RULE',
        `No meter of ${order.aircraft.registration} was read on this visit: the entry is kept with the time in service. Enter the reading first.`,
      );
    if (input.again !== null) await useSignAgain(tx, input.again, input);
    const { id: entryId } = await tx.recordEntry.create({
      data: {
        orderId: order.id,
        bookId: book.id,
        rule: entry.rule,
        inspection: entry.rule === 'inspection' ? order.inspection : null,
        text,
        completedOn,
        tisHundredths,
        outcome: input.outcome ?? 'airworthy',
        signedById: personId,
        signedAt: context.now(),
        signature: signer.name,
        certificateKind: signer.certificateKind,
        certificateNumber: signer.certificateNumber,
        correctsId: corrects?.entry.id ?? null,
      },
      select: { id: true },
    });
    await keepParts(tx, entryId, entry);
    await linkRecords(tx, key, order.aircraft.id, context.now());
    return entryId;
  });
}

/** The last thing before a signature is kept: whoever signs said just now, for this entry, who they are. */
async function useSignAgain(tx: Tx, again: string, what: WhatIsSigned): Promise<void> {
  const token = createHash('sha256').update(again.slice(0, 200)).digest('hex');
  const [answer] = await tx.$queryRaw<{ used: boolean }[]>`
    SELECT use_sign_again(${token}, ${digestOfSigned(what)}) AS used`;
  if (!answer?.used)
    throw new Refused(
      'SIGN_IN_NEEDED',
      'Nothing was signed: an entry is signed within five minutes of signing in again for it, once, and with the text that was shown then. Type your password again.',
      'again',
    );
}

async function keepParts(
  tx: Tx,
  entryId: string,
  { items, listed }: Awaited<ReturnType<typeof prepare>>['entry'],
): Promise<void> {
  await tx.entryItem.createMany({ data: items.map(({ id: itemId }) => ({ entryId, itemId })) });
  await tx.entryDiscrepancy.createMany({ data: listed.map((one) => ({ ...one, entryId })) });
}

/** Work is signed for while the aircraft is here; a correction also after that. */
function refuseState(order: OrderToSign, correction: boolean): void {
  const state = orderState(order);
  if (
    state === 'here' ||
    state === 'ready_to_sign' ||
    (correction && (state === 'released' || state === 'closed'))
  )
    return;
  throw new Refused(
    'AGAINST_RULE',
    `Order ${order.number} is ${state.replace('_', ' ')}: an entry is signed while the aircraft is here. A mistake in a signed entry is corrected with a new one that names it.`,
  );
}

/** One signature for the same work in the same book. */
function refuseSignedAlready(
  order: OrderToSign,
  bookId: string,
  corrects: { entry: SignedEntry } | null,
): void {
  if (corrects) {
    if (corrects.entry.corrections.length > 0)
      throw new Refused(
        'CONFLICT',
        'That entry was corrected already: correct the one that corrects it.',
        'correctsId',
      );
    return;
  }
  const signed = standing(order, bookId).at(-1);
  const entered = new Set(
    standing(order, bookId).flatMap(({ items }) => items.map(({ itemId }) => itemId)),
  );
  const hasMore = order.items.some(
    ({ id, events }) => !entered.has(id) && events.some(({ kind }) => kind === 'done'),
  );
  if (signed && !hasMore)
    throw new Refused(
      'CONFLICT',
      `This was signed by ${signed.signedBy.name} on ${sayMinute(signed.signedAt)} already. A mistake in it is corrected with a new entry that names it.`,
    );
}

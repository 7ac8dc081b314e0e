import type { ReleaseOutcome, Tx } from '@fairlead/database';
import { notFound, Refused } from '../errors.ts';
import { givenText } from '../given.ts';
import {
  type EntryWanted,
  finished,
  inspectionFor,
  itemsFor,
  jascsOf,
  prepareEntry,
} from './compose.ts';
import { leftInoperative } from './inoperative/left-inoperative.ts';
import { loadOrderToSign, type OrderToSign } from './order-to-sign.ts';
import { signerFor, worksOf } from './signer.ts';

export interface EntryAsked {
  orderId: string;
  bookId: string;
  outcome: ReleaseOutcome | null;
  extent: string | null;
  leaveOut: readonly string[];
  correctsId: string | null;
  reason: string | null;
}

export interface LoadedEntry extends EntryWanted {
  order: OrderToSign;
}

/** Reads what an entry is about, and refuses what does not belong together. */
export async function loadEntry(read: Tx, asked: EntryAsked, today: Date): Promise<LoadedEntry> {
  const order = await loadOrderToSign(read, asked.orderId);
  if (!order) throw notFound('order');
  const book = order.aircraft.books.find(({ id }) => id === asked.bookId);
  if (!book) {
    const elsewhere = await read.recordBook.findUnique({
      where: { id: asked.bookId },
      select: { id: true },
    });
    if (!elsewhere) throw notFound('record book');
    throw new Refused(
      'BAD_INPUT',
      `That record book is of another aircraft than ${order.aircraft.registration}.`,
      'bookId',
    );
  }
  const stranger = asked.leaveOut.find((left) => !order.items.some(({ id }) => id === left));
  if (stranger)
    throw new Refused(
      'BAD_INPUT',
      `An item to leave out is not on order ${order.number}.`,
      'leaveOut',
    );
  const twins = order.aircraft.books.filter(({ kind }) => kind === book.kind);
  if (asked.leaveOut.length > 0 && twins.length < 2)
    throw new Refused(
      'AGAINST_RULE',
      `${order.aircraft.registration} has one ${book.kind} book: nothing that was done can be left out of it.`,
      'leaveOut',
    );
  const extent = asked.extent === null ? null : givenText(asked.extent, 'extent', { most: 500 });
  return {
    order,
    book,
    outcome: asked.outcome,
    extent,
    leaveOut: asked.leaveOut,
    corrects: correctionOf(order, asked),
    left: await leftInoperative(read, order.aircraft.id, today),
  };
}

function correctionOf(
  order: OrderToSign,
  { correctsId, bookId, reason }: EntryAsked,
): LoadedEntry['corrects'] {
  if (!correctsId) return null;
  const entry = order.entries.find(({ id }) => id === correctsId);
  if (!entry || entry.bookId !== bookId)
    throw new Refused(
      'BAD_INPUT',
      'The entry to correct is not one of this order in this book.',
      'correctsId',
    );
  return { entry, reason: givenText(reason, 'reason', { least: 3, most: 1000 }) };
}

/** The entry as this person would sign it now, and which finished items could stand in it. */
export async function prepare(read: Tx, loaded: LoadedEntry, personId: string, today: Date) {
  const { order, book, leaveOut } = loaded;
  const belong = itemsFor(order, { ...loaded, leaveOut: [] }).filter(finished);
  const items = belong.filter(({ id }) => !leaveOut.includes(id));
  const works = worksOf(inspectionFor(order, loaded), jascsOf(items, book.kind));
  const signer = await signerFor(read, personId, works, today);
  const { timeZone } = await read.shop.findFirstOrThrow({ select: { timeZone: true } });
  const choice = order.aircraft.books.filter(({ kind }) => kind === book.kind).length > 1;
  return {
    entry: prepareEntry(order, loaded, signer, { today, timeZone }),
    signer,
    belong,
    choice,
  };
}

export type Prepared = Awaited<ReturnType<typeof prepare>>;

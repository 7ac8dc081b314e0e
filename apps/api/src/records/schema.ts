import { ReleaseOutcome } from '@fairlead/database';
import { builder } from '../builder.ts';
import { allow } from '../context.ts';
import { notFound } from '../errors.ts';
import { keyOf } from '../ids.ts';
import { shopToday } from '../today.ts';
import { EntryDraftType } from './entry-types.ts';
import { closeOrder, handBack } from './hand-back.ts';
import { loadOrderToSign } from './order-to-sign.ts';
import { type EntryAsked, loadEntry, prepare } from './prepare.ts';
import { releaseAircraft } from './release-aircraft.ts';
import {
  type BookToSign,
  booksToSign,
  outcomeOf,
  releaseHindrances,
} from './release-hindrances.ts';
import { signEntry } from './sign-entry.ts';

const BookToSignType = builder.objectRef<BookToSign>('BookToSign').implement({
  description: 'A record book of the aircraft, as an order needs it.',
  fields: (t) => ({
    book: t.prismaField({
      type: 'RecordBook',
      description: 'The book.',
      resolve: (_query, { book }) => book,
    }),
    needed: t.exposeBoolean('needed', { description: 'Whether the order needs an entry in it.' }),
    signed: t.exposeBoolean('signed', { description: 'Whether it has one.' }),
    left: t.exposeInt('left', {
      description: 'Finished items that belong in it and stand in no entry yet.',
    }),
  }),
});

interface Signing {
  books: BookToSign[];
  outcome: ReleaseOutcome;
  hindrances: string[];
}
const SigningType = builder.objectRef<Signing>('Signing').implement({
  description: 'What an order still needs before its aircraft is released.',
  fields: (t) => ({
    books: t.field({
      type: [BookToSignType],
      description: 'The record books.',
      resolve: ({ books }) => books,
    }),
    outcome: t.expose('outcome', {
      type: ReleaseOutcome,
      description: 'How it would be released as things stand.',
    }),
    hindrances: t.exposeStringList('hindrances', {
      description: 'What keeps it from being released so, each in one sentence.',
    }),
  }),
});

const entryArgs = {
  outcome: 'How it ended; needed for an inspection.',
  extent: 'How far the inspection went, at most 500 characters; left out: as its list says.',
  leaveOut: "Items that belong in another book of the same kind, such as the other engine's.",
  correctsId: 'The signed entry that this one corrects.',
  reason: 'Why it is corrected.',
};
const SignEntryInput = builder.inputType('SignEntryInput', {
  description: 'A signature under an entry, as it was read.',
  fields: (t) => ({
    orderId: t.id({ required: true, description: 'The order.' }),
    bookId: t.id({ required: true, description: 'The record book.' }),
    outcome: t.field({ type: ReleaseOutcome, description: entryArgs.outcome }),
    extent: t.string({ description: entryArgs.extent }),
    leaveOut: t.idList({ description: entryArgs.leaveOut }),
    correctsId: t.id({ description: entryArgs.correctsId }),
    reason: t.string({ description: entryArgs.reason }),
    signature: t.string({ required: true, description: "The signer's own name, typed in full." }),
    text: t.string({
      required: true,
      description: 'The text that was read, as the draft gave it.',
    }),
    again: t.string({
      required: true,
      description:
        'What POST /auth/again answered to the password, for this order, book and text. It counts once, for five minutes.',
    }),
  }),
});
const ReleaseAircraftInput = builder.inputType('ReleaseAircraftInput', {
  description: 'An aircraft that goes back.',
  fields: (t) => ({
    orderId: t.id({ required: true, description: 'The order.' }),
    outcome: t.field({
      type: ReleaseOutcome,
      required: true,
      description: 'How it ended: as the entries say.',
    }),
  }),
});
const HandBackInput = builder.inputType('HandBackInput', {
  description: 'Things that are given back with the aircraft.',
  fields: (t) => ({
    orderId: t.id({ required: true, description: 'The order.' }),
    returned: t.idList({
      required: true,
      description: 'The things received that are given back now.',
    }),
  }),
});
const CloseOrderInput = builder.inputType('CloseOrderInput', {
  description: 'An order that is over.',
  fields: (t) => ({ orderId: t.id({ required: true, description: 'The order.' }) }),
});

interface AskedOver {
  orderId: string;
  bookId: string;
  outcome?: ReleaseOutcome | null | undefined;
  extent?: string | null | undefined;
  leaveOut?: readonly string[] | null | undefined;
  correctsId?: string | null | undefined;
  reason?: string | null | undefined;
}
const entryAsked = ({
  orderId,
  bookId,
  outcome,
  extent,
  leaveOut,
  correctsId,
  reason,
}: AskedOver): EntryAsked => ({
  orderId: keyOf('WorkOrder', orderId, 'orderId'),
  bookId: keyOf('RecordBook', bookId, 'bookId'),
  outcome: outcome ?? null,
  extent: extent ?? null,
  leaveOut: (leaveOut ?? []).map((id) => keyOf('WorkItem', id, 'leaveOut')),
  correctsId: correctsId ? keyOf('RecordEntry', correctsId, 'correctsId') : null,
  reason: reason ?? null,
});

builder.queryFields((t) => ({
  entryDraft: t.field({
    type: EntryDraftType,
    errors: {},
    description:
      'The entry of an order in one record book, as the person signed in would sign it now, and what it lacks.',
    args: {
      orderId: t.arg.id({ required: true, description: 'The order.' }),
      bookId: t.arg.id({ required: true, description: 'The record book.' }),
      outcome: t.arg({ type: ReleaseOutcome, description: entryArgs.outcome }),
      extent: t.arg.string({ description: entryArgs.extent }),
      leaveOut: t.arg.idList({ description: entryArgs.leaveOut }),
      correctsId: t.arg.id({ description: entryArgs.correctsId }),
      reason: t.arg.string({ description: entryArgs.reason }),
    },
    resolve: async (_, args, context) => {
      const { personId } = await allow(context, 'inspector', 'mechanic', 'front_desk', 'manager');
      const today = await shopToday(context);
      const loaded = await loadEntry(context.read, entryAsked(args), today);
      return prepare(context.read, loaded, personId, today);
    },
  }),
  signing: t.field({
    type: SigningType,
    errors: {},
    description: 'What an order still needs before its aircraft is released.',
    args: { orderId: t.arg.id({ required: true, description: 'The order.' }) },
    resolve: async (_, { orderId }, context) => {
      const order = await loadOrderToSign(context.read, keyOf('WorkOrder', orderId, 'orderId'));
      if (!order) throw notFound('order');
      const today = await shopToday(context);
      const outcome = outcomeOf(order, today);
      return {
        books: booksToSign(order),
        outcome,
        hindrances: releaseHindrances(order, outcome, today),
      };
    },
  }),
}));

builder.mutationFields((t) => ({
  signEntry: t.prismaField({
    type: 'RecordEntry',
    errors: {},
    description:
      'Signs an entry. Refused while anything that is required is missing. For an inspector whose certificate covers the work.',
    args: {
      input: t.arg({
        type: SignEntryInput,
        required: true,
        description: 'What is signed, and the signature.',
      }),
    },
    resolve: async (query, _, { input }, context) => {
      const id = await signEntry(context, {
        ...entryAsked(input),
        signature: input.signature,
        text: input.text,
        again: input.again,
      });
      return context.read.recordEntry.findUniqueOrThrow({ ...query, where: { id } });
    },
  }),
  releaseAircraft: t.prismaField({
    type: 'WorkOrder',
    errors: {},
    description:
      'Records that the aircraft is released. Refused until every book that the work concerns has its signed entry. For an inspector.',
    args: {
      input: t.arg({ type: ReleaseAircraftInput, required: true, description: 'Which, and how.' }),
    },
    resolve: async (query, _, { input }, context) => {
      const id = await releaseAircraft(context, {
        orderId: keyOf('WorkOrder', input.orderId, 'orderId'),
        outcome: input.outcome,
      });
      return context.read.workOrder.findUniqueOrThrow({ ...query, where: { id } });
    },
  }),
  handBack: t.prismaField({
    type: 'WorkOrder',
    errors: {},
    description: 'Records that things which came with the aircraft were given back.',
    args: { input: t.arg({ type: HandBackInput, required: true, description: 'What goes back.' }) },
    resolve: async (query, _, { input }, context) => {
      const id = await handBack(context, {
        orderId: keyOf('WorkOrder', input.orderId, 'orderId'),
        returned: input.returned.map((thing) => keyOf('ReceivedThing', thing, 'returned')),
      });
      return context.read.workOrder.findUniqueOrThrow({ ...query, where: { id } });
    },
  }),
  closeOrder: t.prismaField({
    type: 'WorkOrder',
    errors: {},
    description:
      'Closes a released order when everything was handed back. An unpaid invoice does not hinder it. For the front desk and the manager.',
    args: { input: t.arg({ type: CloseOrderInput, required: true, description: 'Which order.' }) },
    resolve: async (query, _, { input }, context) => {
      const id = await closeOrder(context, {
        orderId: keyOf('WorkOrder', input.orderId, 'orderId'),
      });
      return context.read.workOrder.findUniqueOrThrow({ ...query, where: { id } });
    },
  }),
}));

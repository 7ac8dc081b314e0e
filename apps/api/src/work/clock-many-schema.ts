import { builder } from '../builder.ts';
import { Refused } from '../errors.ts';
import { keyOf } from '../ids.ts';
import { clockMany } from './clock.ts';
import type { ClockInput as Given } from './clock-given.ts';
import { ClockInput } from './clock-mutations.ts';
import { type ClockRemark, clockRemarks } from './clock-remarks.ts';
import { fewAtOnce } from './few-at-once.ts';
import { atMost } from './limits.ts';

/** As many as a telephone gathers in days without a network. */
const MOST_EVENTS = 200;
/**
 * When a whole hangar comes back into the Wi-Fi at once, the desk still finds a connection and time. One telephone after the
 * other costs them a second together; two at once cost the desk three times the wait (tests/measure/bench-drain).
 */
const gathered = fewAtOnce(1);

interface Answer {
  clientEventId: string;
  refusal: Refused | null;
}

const ClockAnswer = builder.objectRef<Answer>('ClockAnswer').implement({
  description: 'What became of one event of a clock.',
  fields: (t) => ({
    clientEventId: t.exposeString('clientEventId', { description: 'The id that was sent.' }),
    // An error that is answered would be thrown: its sentence is what the device shows.
    refusal: t.string({
      nullable: true,
      description: 'Why it was refused, in a sentence; null: it is recorded.',
      resolve: ({ refusal }) => refusal?.message ?? null,
    }),
  }),
});
const Remark = builder.objectRef<ClockRemark>('ClockRemark').implement({
  description:
    'What its sender should know where an event came late: the item was closed by then, or the clock went on elsewhere.',
  fields: (t) => ({
    clientEventId: t.exposeString('clientEventId', { description: 'At which event.' }),
    words: t.exposeString('words', { description: 'In sentences.' }),
  }),
});
const ClockAnswers = builder
  .objectRef<{ answers: Answer[]; remarks: ClockRemark[] }>('ClockAnswers')
  .implement({
    description: 'What became of the events of a clock.',
    fields: (t) => ({
      answers: t.field({
        type: [ClockAnswer],
        description: 'One for each event, in their order.',
        resolve: ({ answers }) => answers,
      }),
      remarks: t.field({
        type: [Remark],
        description: 'What their sender should know.',
        resolve: ({ remarks }) => remarks,
      }),
    }),
  });

const ClockManyInput = builder.inputType('ClockManyInput', {
  description: 'All that a clock did while its device was away.',
  fields: (t) => ({
    events: t.field({
      type: [ClockInput],
      required: true,
      description: `In the order in which it happened, at most ${MOST_EVENTS}.`,
    }),
  }),
});

builder.mutationField('clockMany', (t) =>
  t.field({
    type: ClockAnswers,
    errors: {},
    description:
      'Takes all that the clock of the person signed in did while their device was away. Each is recorded or refused by itself.',
    args: {
      input: t.arg({ type: ClockManyInput, required: true, description: 'What it did.' }),
    },
    resolve: async (_, { input: { events } }, context) => {
      const given = atMost(events, 'events', MOST_EVENTS).map((event) => read(event));
      const sound = given.flatMap((event) => (event instanceof Refused ? [] : [event]));
      // Nothing was read yet: whoever waits holds no connection.
      const recorded = await gathered(() => clockMany(context, sound));
      const ids = recorded.filter((each) => typeof each === 'string');
      const outcomes = given.map((event) => (event instanceof Refused ? event : recorded.shift()));
      return {
        answers: events.map(({ clientEventId }, index) => {
          const outcome = outcomes[index];
          return { clientEventId, refusal: outcome instanceof Refused ? outcome : null };
        }),
        remarks: await clockRemarks(context.read, ids),
      };
    },
  }),
);

/** An id that is none is refused by itself as well. */
function read({
  itemId,
  device,
  supervisedById,
  ...event
}: typeof ClockInput.$inferInput): Given | Refused {
  try {
    return {
      ...event,
      device: device ?? null,
      itemId: itemId ? keyOf('WorkItem', String(itemId), 'itemId') : null,
      supervisedById: supervisedById
        ? keyOf('Person', String(supervisedById), 'supervisedById')
        : null,
    };
  } catch (error) {
    if (error instanceof Refused) return error;
    throw error;
  }
}

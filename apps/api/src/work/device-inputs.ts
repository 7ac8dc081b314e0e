import { builder } from '../builder.ts';

export const clientEventIdWords =
  'A UUID made by the device: sent again, the first answer comes back and nothing is added.';

export const atWords = 'When, by the clock of the device; left out: now.';

/** Of a fact, where it is shown: a page tells by it what its own device has noted and the shop has by now. */
export const clientEventIdIs = 'The UUID under which its device noted it.';

export const DeviceInput = builder.inputType('DeviceInput', {
  description: 'Which device sends something, and how its clock stands.',
  fields: (t) => ({
    id: t.string({ required: true, description: 'A UUID that the device made for itself.' }),
    clockOffsetMs: t.float({
      required: true,
      description:
        "What it has to add to its clock to have the shop's, milliseconds, as measured from the shop's answers.",
    }),
  }),
});

export const NotedInput = builder.inputType('NotedInput', {
  description: 'When and where something was noted that is sent later.',
  fields: (t) => ({
    at: t.field({
      type: 'DateTime',
      required: true,
      description: 'When, by the clock of the device.',
    }),
    clientEventId: t.string({ required: true, description: clientEventIdWords }),
    device: t.field({ type: DeviceInput, required: true, description: 'On which device.' }),
  }),
});

export const notedWords =
  'When it was noted, where it is sent later and perhaps twice; left out: now.';

import type { InputFieldBuilder } from '@pothos/core';
import type { Types } from '../builder.ts';

/** The fields that every fact of this subject comes with. */
export const eventFields = (t: InputFieldBuilder<Types, 'InputObject'>) => ({
  at: t.field({
    type: 'DateTime',
    description: 'When, by the clock of the device; left out: now.',
  }),
  clientEventId: t.string({
    required: true,
    description:
      'A UUID made by the device: sent again, the first answer comes back and nothing is added.',
  }),
});

/** Of a fact, where it is shown: a page tells by it what its own device has noted and the shop has by now. */
export const clientEventIdIs = 'The UUID under which its device noted it.';

import { type Counter, counters } from '@fairlead/airworthiness';
import { builder } from '../builder.ts';
import type { GivenCounts } from './counts.ts';

/** One shape in, one shape out, wherever something is counted. */
export const CountsInput = builder.inputType('CountsInput', {
  description: 'Cycles, landings and starts; each may be left out.',
  fields: (t) => ({
    cycles: t.int({ description: 'Cycles, as the maker of the part counts them.' }),
    landings: t.int({ description: 'Landings.' }),
    starts: t.int({ description: 'Starts of the engine.' }),
  }),
});

export const CountsType = builder.objectRef<GivenCounts>('Counts').implement({
  description: 'Cycles, landings and starts; null where nobody counted.',
  fields: (t) => ({
    cycles: t.exposeInt('cycles', { nullable: true, description: 'Cycles.' }),
    landings: t.exposeInt('landings', { nullable: true, description: 'Landings.' }),
    starts: t.exposeInt('starts', { nullable: true, description: 'Starts of the engine.' }),
  }),
});

export const CounterType = builder.enumType('Counter', {
  description: 'What is counted besides hours and days.',
  values: Object.fromEntries(
    counters.map((counter) => [
      counter,
      { description: `${counter[0]!.toUpperCase()}${counter.slice(1)}.` },
    ]),
  ) as Record<Counter, { description: string }>,
});

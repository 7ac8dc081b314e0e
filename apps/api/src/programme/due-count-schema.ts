import { type Counter, counters } from '@fairlead/airworthiness';
import { builder } from '../builder.ts';
import { CounterType } from './counts-schema.ts';
import type { DueLine } from './due-line.ts';
import { lastOf } from './due-terms.ts';

/** One of the counts that something is due by. */
interface DueCount {
  counter: Counter;
  dueAt: number;
  remaining: number;
  lastAt: number | null;
}
export const DueCountType = builder.objectRef<DueCount>('DueCount').implement({
  description: 'At which count something is due.',
  fields: (t) => ({
    counter: t.expose('counter', { type: CounterType, description: 'What is counted.' }),
    dueAt: t.exposeInt('dueAt', { description: 'The aircraft’s count at which it is due.' }),
    remaining: t.exposeInt('remaining', { description: 'What is left; below 0 past due.' }),
    lastAt: t.exposeInt('lastAt', {
      nullable: true,
      description: 'The aircraft’s count when it was last complied with.',
    }),
  }),
});
export const countsOf = ({ row, due }: DueLine): DueCount[] =>
  counters.flatMap((counter) => {
    const [dueAt, remaining] = [due?.due[counter], due?.remaining[counter]];
    if (dueAt === undefined || remaining === undefined) return [];
    return [{ counter, dueAt, remaining, lastAt: lastOf(row)?.[counter] ?? null }];
  });

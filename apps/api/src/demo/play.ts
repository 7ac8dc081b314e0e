import type { Tx } from '@fairlead/database';
import { type DemoPerson, readDemo } from '../../../../prisma/demo/data.ts';
import type { Context } from '../context.ts';
import { newId } from '../new-id.ts';
import type { Keys } from './keys.ts';
import { rolesOf } from './lay-out-people.ts';

/** One thing that somebody of the demo does at its time, through the program's own use-cases. */
export interface Act {
  at: Date;
  /** The person's key. */
  by: string;
  /** Among acts of one instant the lower comes first: a clock is stopped before the item is finished. */
  order?: number;
  does(context: Context): Promise<unknown>;
}

export interface Stage {
  tx: Tx;
  shopId: string;
  people: Keys;
  uploadsDir: string;
}

/**
 * Plays acts in the order of their times. Each person has their own roles and their own "now", and all
 * act inside one transaction: so the rules of the program hold for the demo, and it is there whole or not at all.
 */
export async function play(stage: Stage, acts: readonly Act[]): Promise<void> {
  const people = new Map(readDemo('people.json').map((person) => [person.key, person]));
  const inTurn = [...acts].sort(
    (one, other) => one.at.getTime() - other.at.getTime() || (one.order ?? 0) - (other.order ?? 0),
  );
  for (const { at, by, does } of inTurn) {
    const person = people.get(by);
    if (!person) throw new RangeError(`Nobody of the demo is called "${by}"`);
    await does(contextOf(stage, person, at)).catch((error: unknown) => {
      throw new Error(
        `The demo's ${person.name} could not do something on ${at.toISOString()}: ${error instanceof Error ? error.message : String(error)}`,
        { cause: error },
      );
    });
  }
}

function contextOf(
  { tx, shopId, people, uploadsDir }: Stage,
  person: DemoPerson,
  at: Date,
): Context {
  const personId = people.of(person.key);
  return {
    viewer: { accountId: personId, shopId, personId, shared: false },
    requestId: newId(),
    read: tx,
    write: (work) => work(tx),
    roles: () => Promise.resolve(rolesOf(person)),
    now: () => at,
    uploadsDir,
    webOrigin: '',
    sendsMail: false,
    close: () => Promise.resolve(),
  };
}

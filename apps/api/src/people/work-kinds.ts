import type { Tx } from '@fairlead/database';
import { allow, type Context } from '../context.ts';
import { Refused } from '../errors.ts';
import { givenText } from '../given.ts';
import { holdFor } from '../hold.ts';
import { literally } from '../literally.ts';

/** Kinds of rate that are no kinds of work: the general rate, and what an hour costs the shop. */
const NO_WORK = ['mechanic', 'cost', 'general'];
const MOST_KINDS = 40;

/** A kind of work, as the shop names it. Named once; until it has a rate of its own the general one holds. */
export async function addWorkKind(context: Context, input: { name: string }): Promise<string> {
  await allow(context, 'manager');
  const name = givenText(input.name, 'name', { least: 2, most: 40 });
  if (NO_WORK.includes(name.toLowerCase()))
    throw new Refused(
      'BAD_INPUT',
      `name is "${name}", which is the name of ${name.toLowerCase() === 'cost' ? 'what an hour costs the shop' : 'the rate for all work without a kind'}: needed is another.`,
      'name',
    );
  return context.write(async (tx) => {
    await holdFor(tx, 'rates', 'kinds');
    const known = await tx.workKind.findFirst({
      where: { name: { equals: literally(name), mode: 'insensitive' } },
      select: { id: true },
    });
    if (known) return known.id;
    const kinds = await tx.workKind.count();
    if (kinds >= MOST_KINDS)
      throw new Refused(
        'AGAINST_RULE',
        `The shop has ${kinds} kinds of work: at most ${MOST_KINDS} are kept apart.`,
        'name',
      );
    const { id } = await tx.workKind.create({
      data: { name, namedAt: context.now() },
      select: { id: true },
    });
    return id;
  });
}

/** The kind of a rate as it is kept: a name that the shop gave, the general rate, or what an hour costs. */
export async function rateKind(tx: Tx, given: string): Promise<string> {
  const kind = givenText(given, 'kind', { least: 1, most: 40 });
  if (kind === 'mechanic' || kind === 'cost') return kind;
  const kinds = await tx.workKind.findMany({ orderBy: { name: 'asc' }, select: { name: true } });
  const known = kinds.find(({ name }) => name.toLowerCase() === kind.toLowerCase());
  if (!known)
    throw new Refused(
      'BAD_INPUT',
      `kind is "${kind}", which the shop has not named: needed is ${['mechanic (for all work without a kind)', 'cost', ...kinds.map(({ name }) => name)].join(', ')}. Name it first.`,
      'kind',
    );
  return known.name;
}

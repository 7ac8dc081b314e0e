import type { Pricing } from '@fairlead/database';
import { Refused } from '../errors.ts';
import type { OfferInput } from './offer-input.ts';

/** Minor units. */
const MOST_PRICE = 1_000_000_000_00n;
const most = { tasks: 150, parts: 100, quantity: 10_000 };

/** Refuses what cannot be quoted whatever the shop knows: too much of it, twice the same, or amounts that say nothing. */
export function refuseUnlikely({ packageId, findingId, tasks, parts }: OfferInput): void {
  const bad = (message: string, field: string) => new Refused('BAD_INPUT', message, field);
  if (packageId && findingId)
    throw bad('A quote is for a package or for a finding, not for both.', 'findingId');
  if (tasks.length > most.tasks)
    throw bad(`${tasks.length} tasks are too many for one quote: at most ${most.tasks}.`, 'tasks');
  if (parts.length > most.parts)
    throw bad(`${parts.length} parts are too many for one quote: at most ${most.parts}.`, 'parts');
  if (new Set(tasks.map(({ taskId }) => taskId)).size < tasks.length)
    throw bad('A task is named twice: name each once.', 'tasks');
  if (new Set(parts.map(({ partId }) => partId)).size < parts.length)
    throw bad('A part is named twice: name it once, with the whole quantity.', 'parts');
  const wrong = parts.find(
    ({ quantity }) =>
      !/^\d+(\.\d{1,3})?$/.test(quantity) ||
      Number(quantity) <= 0 ||
      Number(quantity) > most.quantity,
  );
  if (wrong)
    throw bad(
      `A quantity of ${wrong.quantity} was refused: needed is more than 0, at most ${most.quantity}, with at most 3 decimals.`,
      'parts',
    );
  for (const { pricing, price } of tasks) refusePrice(pricing, price);
}

const howSold = {
  fixed: 'at a fixed price',
  not_to_exceed: 'not to exceed a price',
} as const;

function refusePrice(pricing: Pricing, price: bigint | null): void {
  const given = price === null ? 'none is given' : `${price} minor units were given`;
  if (pricing === 'time_and_materials') {
    if (price !== null)
      throw new Refused(
        'BAD_INPUT',
        `A task by time and materials has no price of its own, and ${given}: needed is none, or that it is sold at a fixed price or not to exceed one.`,
        'tasks',
      );
  } else if (price === null || price <= 0n || price > MOST_PRICE)
    throw new Refused(
      'BAD_INPUT',
      `A task sold ${howSold[pricing]} needs that price, and ${given}: needed is more than 0, and at most ${MOST_PRICE}.`,
      'tasks',
    );
}

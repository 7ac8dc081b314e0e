import { Refused } from '../errors.ts';
import type { ComparedRow } from './compared-items.ts';

/** Which compared items are asked for; what is left out is not a condition. */
export interface AccuracyAsked {
  task?: string | null | undefined;
  model?: string | null | undefined;
  from?: string | null | undefined;
  to?: string | null | undefined;
}

const monthOf = (given: string, field: string): string => {
  if (!/^\d{4}-(0[1-9]|1[0-2])$/.test(given))
    throw new Refused(
      'BAD_INPUT',
      `${field} is "${given.slice(0, 40)}": needed is a year and month, such as 2026-03.`,
      field,
    );
  return given;
};

/**
 * The items that meet every condition.
 *
 * @throws Refused for a month that is none, or a span that ends before it begins
 */
export function itemsAsked(items: readonly ComparedRow[], asked: AccuracyAsked): ComparedRow[] {
  const { task, model } = asked;
  const from = asked.from ? monthOf(asked.from, 'from') : '0000-00';
  const to = asked.to ? monthOf(asked.to, 'to') : '9999-99';
  if (from > to)
    throw new Refused(
      'BAD_INPUT',
      `from is ${from} and to is ${to}: needed is a to that is no earlier.`,
      'to',
    );
  return items.filter(
    (item) =>
      (typeof task !== 'string' || item.task === task) &&
      (typeof model !== 'string' || item.model === model) &&
      from <= item.month &&
      item.month <= to,
  );
}

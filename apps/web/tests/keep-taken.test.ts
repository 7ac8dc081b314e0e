import { QueryClient } from '@tanstack/react-query';
import { describe, expect, it, vi } from 'vitest';
import { keepTaken, sheetsOf } from '../features/work/keep-taken.ts';
import type { Pending } from '../features/work/pending.ts';
import { noted, photo } from './outbox-device.ts';

/** What is asked for, and how often everything is. */
function kept() {
  const queries = new QueryClient();
  const asked: string[] = [];
  vi.spyOn(queries, 'fetchQuery').mockImplementation(({ queryKey }) => {
    asked.push(queryKey.join(' '));
    return Promise.resolve(null);
  });
  const allAreOld = vi.fn();
  return {
    asked,
    allAreOld,
    keep: (taken: readonly Pending[], ranBefore?: string) =>
      keepTaken(queries, taken, ranBefore, allAreOld),
  };
}

const care = (input: object) => noted({ kind: 'care', does: 'count', input } as never);

describe('what is kept of sheets that something was said about', () => {
  it('is read anew sheet by sheet, with the one whose clock was stopped by a switch', () => {
    const { keep, asked, allAreOld } = kept();
    keep([noted(), noted()], 'before');
    expect(asked).toEqual(['item a', 'item before']);
    expect(allAreOld).not.toHaveBeenCalled();
  });
  it('is of an order, of an item, or of both', () => {
    expect(sheetsOf(care({ orderId: 'o' }))).toEqual({ items: [], orders: ['o'] });
    expect(sheetsOf(care({ orderId: 'o', itemId: 'i' }))).toEqual({ items: ['i'], orders: ['o'] });
    expect(sheetsOf(noted({ kind: 'cautions', itemId: 'i' } as never))).toEqual({
      items: ['i'],
      orders: [],
    });
    const { keep, asked } = kept();
    keep([care({ orderId: 'o', itemId: 'i' })], 'before');
    expect(asked).toEqual(['item i', 'openOnOrder o']);
  });
  it('comes with the next reading of all where it cannot be told, or is too much', () => {
    const { keep, asked, allAreOld } = kept();
    keep([photo('f')]);
    keep(['1', '2', '3', '4', '5'].map((itemId) => care({ orderId: 'o', itemId })));
    expect(asked).toEqual([]);
    expect(allAreOld).toHaveBeenCalledTimes(2);
  });
});

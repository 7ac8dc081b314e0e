import { expect, test } from 'vitest';
import type { Fact } from '../features/safety/facts.ts';
import type { UnsentFact } from '../features/safety/kept-facts.ts';
import { lineNamed, linesNow } from '../features/safety/open-now.ts';
import type { OpenLine } from '../features/safety/order-documents.ts';

const at = '2031-05-04T16:10:00Z';
const line = (id: string, state: OpenLine['state']): OpenLine => ({
  ...{ id, kind: 'opened', words: 'Belly panel', place: '', at, state },
  ...{
    by: { id: 'q', name: 'Marta Quillby' },
    item: null,
    events: [],
    clientEventId: `device-${id}`,
  },
});
const noted = (id: string, fact: Fact): UnsentFact =>
  ({ ...fact, id, at, words: '', name: 'Ruan Teasel' }) as UnsentFact;
const mark = (id: string, lineId: string, kind: 'closed' | 'reopened' | 'struck_out') =>
  noted(id, { does: 'markOpen', input: { lineId, kind } });

test('what was closed, opened again and struck out on this device stands so, in turn, and says that it is not sent', () => {
  const lines = [line('a', 'open'), line('b', 'closed'), line('c', 'open')];
  const now = linesNow('o', lines, [mark('1', 'a', 'closed'), mark('2', 'b', 'reopened')]);
  expect(now.map(({ id, state, unsent }) => [id, state, unsent])).toEqual([
    ['a', 'closed', true],
    ['b', 'open', true],
    ['c', 'open', undefined],
  ]);
  expect(now[0]?.events.at(-1)).toMatchObject({ kind: 'closed', by: { name: 'Ruan Teasel' } });
  const both = linesNow('o', lines, [mark('1', 'a', 'closed'), mark('2', 'a', 'struck_out')]);
  expect(both[0]?.state).toBe('struck_out');
});

test('what was noted on this device is on the list of its own order, open', () => {
  const input = { orderId: 'o', itemId: 'i', kind: 'removed', words: 'Magneto' } as const;
  const facts = [noted('1', { does: 'noteOpen', input })];
  expect(linesNow('o', [], facts)).toMatchObject([
    { id: '1', kind: 'removed', words: 'Magneto', state: 'open', item: { id: 'i' }, unsent: true },
  ]);
  expect(linesNow('other', [], facts)).toEqual([]);
});

test('a line that the shop has not got yet is closed, opened again and struck out under the id of its device', () => {
  const input = { orderId: 'o', itemId: null, kind: 'opened', words: 'Belly panel' } as const;
  const opened = noted('1', { does: 'noteOpen', input });
  const [here] = linesNow('o', [], [opened]);
  const named = lineNamed(here ?? { id: '', clientEventId: '' });
  expect(named).toEqual({ lineClientEventId: '1' });
  expect(lineNamed(line('a', 'open'))).toEqual({ lineId: 'a' });
  const close = noted('2', { does: 'markOpen', input: { ...named, kind: 'closed' } });
  const again = noted('3', { does: 'markOpen', input: { ...named, kind: 'reopened' } });
  const states = (facts: UnsentFact[]) =>
    linesNow('o', [line('a', 'open')], facts).map(({ state }) => state);
  expect(states([opened, close])).toEqual(['open', 'closed']);
  expect(states([opened, close, again])).toEqual(['open', 'open']);
  // The opening was refused: what closes it changes no other line.
  expect(states([close])).toEqual(['open']);
});

test('what the shop has by now counts once, also while the page still holds it for unsent', () => {
  const input = { orderId: 'o', itemId: null, kind: 'opened', words: 'Belly panel' } as const;
  const opened = noted('1', { does: 'noteOpen', input });
  const close = noted('2', { does: 'markOpen', input: { lineClientEventId: '1', kind: 'closed' } });
  const there = { ...line('a', 'open'), clientEventId: '1' };
  const now = linesNow('o', [there], [opened, close]);
  expect(now.map(({ id, state, unsent }) => [id, state, unsent])).toEqual([['a', 'closed', true]]);
  const event = {
    id: 'e',
    clientEventId: '2',
    kind: 'closed',
    note: '',
    at,
    by: { id: 'q', name: '' },
  } as const;
  const closed = { ...there, state: 'closed', events: [event] } as const;
  expect(linesNow('o', [{ ...closed, events: [event] }], [opened, close])).toEqual([closed]);
});

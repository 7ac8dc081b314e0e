import { expect, test } from 'vitest';
import type { Fact } from '../features/safety/facts.ts';
import { itemNow } from '../features/work/items-now.ts';
import type { ItemChange, Pending } from '../features/work/pending.ts';

const item = {
  id: 'a',
  state: 'open',
  waitingFor: null,
  secondsWorked: 0,
  cautionsRead: false,
} as const;
const common = { id: '1', personId: 'p', madeAt: 0, words: '' };
const said = (change: ItemChange, over: Partial<Pending> = {}): Pending =>
  ({ ...common, kind: 'change', ...change, ...over }) as Pending;
const start = (itemId: string): Pending => ({
  ...common,
  kind: 'clock',
  input: { kind: 'start', itemId, at: '', clientEventId: '1' },
});
const wait = said({ does: 'wait', input: { itemId: 'a', waitingFor: 'parts' } });
const resume = said({ does: 'resume', input: { itemId: 'a' } });
const finish = said({ does: 'finish', input: { itemId: 'a', workDone: 'Done.' } });
const reopen = said({ does: 'reopen', input: { itemId: 'a', reason: 'Not after all.' } });
const putOff = said({ does: 'putOff', input: { itemId: 'a', reason: 'Next visit.' } });

test('with nothing to send an item stands as the shop says', () => {
  expect(itemNow(item, [])).toEqual({ ...item, unsent: false });
  expect(itemNow(item, [start('b')])).toEqual({ ...item, unsent: false });
});

test.each([
  [[wait], 'waiting', 'parts'],
  [[wait, resume], 'open', null],
  [[wait, start('a')], 'in_work', null],
  [[start('a'), wait, resume], 'in_work', null],
  [[finish], 'done', null],
  [[finish, reopen], 'open', null],
  [[putOff], 'put_off', null],
  [[finish, reopen, wait], 'waiting', 'parts'],
] as const)('what was said in turn: case %#', (pending, state, waitingFor) => {
  expect(itemNow(item, pending)).toMatchObject({ state, waitingFor, unsent: true });
});

test('what was refused, or is known to be taken, changes nothing; what was just taken still does', () => {
  const { kind: _, ...rest } = finish;
  const finished = rest as never;
  expect(itemNow(item, [said(finished, { refused: 'It is done.' })]).state).toBe('open');
  expect(itemNow(item, [said(finished, { told: 'It was closed.' })]).state).toBe('open');
  expect(itemNow(item, [said(finished, { taken: true })]).state).toBe('done');
});

test('cautions that were read here need not be read again', () => {
  const read: Pending = { ...common, kind: 'cautions', itemId: 'a' };
  expect(itemNow(item, [read])).toMatchObject({ cautionsRead: true, unsent: false });
});

const cared = (act: Fact, name: string, initials: string): Pending => ({
  ...common,
  ...{ kind: 'care', name, initials },
  ...act,
});
const line = (number: number, initials: string | null = null) => ({
  number,
  initials,
  by: initials,
  at: initials,
});

test('a line has the initials of whoever gave them before the shop has them, and none once taken back', () => {
  const listed = { ...item, checklist: [line(1, 'MQ'), line(2), line(3)] };
  const initial = (itemId: string, of: number, kind: 'initialled' | 'withdrawn') =>
    cared({ does: 'initial', input: { itemId, line: of, kind } }, 'Ruan Teasel', 'RT');
  const initialsAfter = (...pending: Pending[]) =>
    itemNow(listed, pending).checklist.map(({ initials }) => initials);
  expect(initialsAfter(initial('a', 2, 'initialled'))).toEqual(['MQ', 'RT', null]);
  // Whoever initialled first has done it; another's item is not this one.
  expect(initialsAfter(initial('a', 1, 'initialled'))).toEqual(['MQ', null, null]);
  expect(initialsAfter(initial('b', 2, 'initialled'))).toEqual(['MQ', null, null]);
  expect(initialsAfter(initial('a', 2, 'initialled'), initial('a', 2, 'withdrawn'))).toEqual([
    'MQ',
    null,
    null,
  ]);
});

test('what was left is gone once taken over, and there once left, before the shop knows', () => {
  const left = { id: 'h', notDone: 'Pins', loose: '', by: { id: 'q', name: 'Marta Quillby' } };
  const stopped = { ...item, stoppedHere: [left] };
  const take = cared({ does: 'takeOver', input: { handOverId: 'h' } }, 'Ruan Teasel', 'RT');
  const said = { orderId: 'o', itemId: 'a', notDone: 'Wire', loose: 'nut 3', done: '' };
  const leave = cared({ does: 'leave', input: said }, 'Ruan Teasel', 'RT');
  expect(itemNow(stopped, [take]).stoppedHere).toEqual([]);
  expect(itemNow(stopped, [take, leave]).stoppedHere).toMatchObject([
    { notDone: 'Wire', loose: 'nut 3', by: { id: 'p', name: 'Ruan Teasel' }, unsent: true },
  ]);
  expect(itemNow({ ...stopped, id: 'b' }, [leave]).stoppedHere).toEqual([left]);
});

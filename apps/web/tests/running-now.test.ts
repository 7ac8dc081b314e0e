import { expect, test } from 'vitest';
import type { Pending } from '../features/work/outbox-store.ts';
import { runningNow } from '../features/work/running-now.ts';

const at = (time: string) => `2031-05-04T${time}:00.000Z`;
const clocked = (
  kind: 'start' | 'switch' | 'stop',
  itemId: string,
  time: string,
  refused?: string,
): Pending => ({
  kind: 'clock',
  id: `${kind} ${itemId} ${time}`,
  personId: 'p',
  madeAt: Date.parse(at(time)),
  words: '',
  input: { kind, itemId, at: at(time), clientEventId: time },
  ...(refused !== undefined && { refused }),
});
const server = { itemId: 'a', startedAt: at('08:00') };

test('with nothing to send, what the server said runs', () => {
  expect(runningNow(server, [])).toEqual(server);
  expect(runningNow(null, [])).toBeNull();
});

test('a start that is not sent yet runs from its own time, a stop ends it', () => {
  expect(runningNow(null, [clocked('start', 'b', '09:00')])).toEqual({
    itemId: 'b',
    startedAt: at('09:00'),
  });
  expect(runningNow(server, [clocked('switch', 'b', '09:00')])?.itemId).toBe('b');
  expect(
    runningNow(server, [clocked('switch', 'b', '09:00'), clocked('stop', 'b', '09:30')]),
  ).toBeNull();
});

test('a device whose clock is wrong counts by the shop’s', () => {
  const start = {
    ...clocked('start', 'b', '09:00'),
    clock: { offsetMs: -86_400_000, heard: 0 },
  };
  expect(runningNow(null, [start])).toEqual({ itemId: 'b', startedAt: '2031-05-03T09:00:00.000Z' });
});

test('what was taken counts until the page has read what followed, and no longer', () => {
  const told = { ...clocked('start', 'b', '09:00'), told: 'Somebody closed it.' };
  expect(runningNow(server, [{ ...told, taken: true }])?.itemId).toBe('b');
  expect(runningNow(server, [told])).toEqual(server);
});

test('what the server has already, or refused, changes nothing', () => {
  expect(runningNow(server, [clocked('start', 'a', '08:00')])).toEqual(server);
  expect(runningNow(server, [clocked('stop', 'z', '07:00')])).toEqual(server);
  expect(runningNow(server, [clocked('stop', 'a', '09:00', 'no such item')])).toEqual(server);
});

const answered = (stoppedAt: string | null, of = server): Pending => ({
  kind: 'answer',
  id: 'answer',
  personId: 'p',
  madeAt: Date.parse(at('09:00')),
  words: '',
  input: {
    startId: 's',
    reason: 'Left running',
    clientEventId: 'answer',
    ...(stoppedAt !== null && { stoppedAt }),
  },
  of,
});

test('a clock that was said to have been left running runs no more; one that is right does', () => {
  expect(runningNow(server, [answered(at('08:30'))])).toBeNull();
  expect(runningNow(server, [answered(null)])).toEqual(server);
});

test('an answer about another clock ends nothing, and what was begun since runs on', () => {
  const before = { itemId: 'a', startedAt: at('06:00') };
  expect(runningNow(server, [answered(at('06:30'), before)])).toEqual(server);
  expect(runningNow(server, [clocked('switch', 'b', '09:00'), answered(at('08:30'))])).toEqual({
    itemId: 'b',
    startedAt: at('09:00'),
  });
});

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
  madeAt: 0,
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

test('the order in which they wait does not matter', () => {
  const stop = clocked('stop', 'b', '09:30');
  expect(runningNow(server, [stop, clocked('switch', 'b', '09:00')])).toBeNull();
});

test('what the server has already, or refused, changes nothing', () => {
  expect(runningNow(server, [clocked('start', 'a', '08:00')])).toEqual(server);
  expect(runningNow(server, [clocked('stop', 'z', '07:00')])).toEqual(server);
  expect(runningNow(server, [clocked('stop', 'a', '09:00', 'no such item')])).toEqual(server);
});

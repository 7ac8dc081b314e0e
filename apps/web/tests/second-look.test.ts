import { expect, test } from 'vitest';
import type { ItemOnSheet } from '../features/work/item-documents.ts';
import { itemNow } from '../features/work/items-now.ts';
import type { Pending } from '../features/work/pending.ts';
import { secondLookOf } from '../features/work/second-look.ts';

const event = (id: string, kind: ItemOnSheet['events'][number]['kind'], by: string) => ({
  ...{ id, kind, at: '2031-05-04T12:00:00Z', by: { id: by, name: by } },
  ...{ waitingFor: null, workDone: '', note: '' },
});
const done = [event('d', 'done', 'ruan'), event('first', 'initialled', 'hesper')];
const item = (over: Partial<ItemOnSheet> = {}) =>
  ({
    ...{ id: 'i', critical: true, state: 'done', events: done, stretches: [] },
    ...{ secondsWorked: 60, waitingFor: null, cautionsRead: true },
    ...over,
  }) as ItemOnSheet;
const common = { id: '1', personId: 'marta', madeAt: Date.UTC(2031, 4, 4, 14), words: '' };
const look = (over: Partial<Pending> = {}): Pending =>
  ({
    ...common,
    ...{ kind: 'change', does: 'secondLook', input: { itemId: 'i', firstId: 'first' } },
    ...over,
  }) as Pending;

test('it is open to who neither worked on the item nor gave the first initials, and names those', () => {
  expect(secondLookOf(item(), 'marta', [])).toMatchObject({ stands: 'open', firstId: 'first' });
  const closed = (who: string, mine: Pending[] = [], over: Partial<ItemOnSheet> = {}) => {
    const said = secondLookOf(item(over), who, mine);
    return said?.stands === 'closed' ? said.words : said?.stands;
  };
  expect(closed('hesper')).toMatch(/not yours: you gave the first initials/);
  expect(closed('ruan')).toMatch(/not yours: you worked on it/);
  expect(closed('marta', [], { events: done.slice(0, 1) })).toMatch(/after the first initials/);
  // Worked on it with no network: the shop does not know yet.
  const clock = {
    ...{ ...common, kind: 'clock' },
    input: { kind: 'start', itemId: 'i', at: '', clientEventId: '1' },
  } as Pending;
  expect(closed('marta', [clock])).toMatch(/not yours: you worked on it/);
  expect(secondLookOf(item({ critical: false }), 'marta', [])).toBeNull();
  expect(secondLookOf(item({ state: 'in_work' }), 'marta', [])).toBeNull();
});

test('given on this device it is told with its time by the shop’s clock, and the item stands inspected, not sent', () => {
  const late = look({ clock: { offsetMs: 90_000, heard: 1 } });
  expect(secondLookOf(item(), 'marta', [late])).toEqual({
    stands: 'noted',
    at: '2031-05-04T14:01:30.000Z',
  });
  expect(itemNow(item(), [late])).toMatchObject({ state: 'inspected', unsent: true });
});

test('one that did not count says so until it is read, and whether the item still wants another’s', () => {
  const refused = look({ refused: 'You worked on it yourself.' });
  expect(secondLookOf(item(), 'marta', [refused])).toMatchObject({
    ...{ stands: 'refused', wanted: true, entry: { refused: 'You worked on it yourself.' } },
  });
  expect(secondLookOf(item({ state: 'inspected' }), 'marta', [refused])).toMatchObject({
    ...{ stands: 'refused', wanted: false },
  });
  expect(itemNow(item(), [refused])).toMatchObject({ state: 'done', unsent: false });
});

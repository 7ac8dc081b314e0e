import { randomUUID } from 'node:crypto';
import { globalId } from '@fairlead/api/ids';
import type { Role } from '@fairlead/database';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { startApi, type TestApi } from '../../support/api.ts';
import type { TestShop } from '../../support/shop.ts';
import { at, shopWith } from './bench-week.ts';
import { clockAt, expectDone, expectRefused, mutate } from './orders.ts';

/** Under whom somebody works. */

let api: TestApi;
let now = new Date('2031-05-06T07:30:00Z');
beforeAll(async () => {
  api = await startApi({ now: () => now });
});
afterAll(async () => {
  expect(api.faults).toEqual([]);
  await api.stop();
});

/** Makes the shop's mechanic an apprentice and adds another mechanic who supervises. */
async function withApprentice() {
  const made = await shopWith(api);
  const { shop } = made;
  const other = await shop.inside(async (tx) => {
    await tx.person.update({
      where: { id: shop.people.mechanic.id },
      data: { apprentice: true },
    });
    const { id } = await tx.person.create({
      data: { shopId: shop.shopId, name: 'Able Other', initials: 'AO', roles: ['mechanic'] },
    });
    return globalId('Person', id);
  });
  const inspector = globalId('Person', shop.people.inspector.id);
  return { ...made, other, inspector };
}

const startUnder = (shop: TestShop, itemId: string, when: Date, supervisedById: string) =>
  mutate(shop, 'mechanic', 'clock', {
    kind: 'start',
    itemId,
    at: when.toISOString(),
    clientEventId: randomUUID(),
    supervisedById,
  });

describe('under whose supervision', () => {
  it('an apprentice is asked, and may name whoever works by themselves', async () => {
    const { shop } = await withApprentice();
    const bench = (role: Role) =>
      shop.as(role, '{ bench { supervised supervisors { name } } }').then(({ data }) => data);
    expect(await bench('mechanic')).toEqual({
      bench: {
        supervised: true,
        supervisors: [{ name: 'Able Other' }, { name: 'Test inspector' }],
      },
    });
    expect(await bench('inspector')).toEqual({ bench: { supervised: false, supervisors: [] } });
    expect(await bench('manager')).toMatchObject({
      bench: { supervised: false, supervisors: [{}, {}] },
    });
  });

  it('the hours stand with both, and a correction gives them to whom they belong', async () => {
    const { shop, items, other, inspector } = await withApprentice();
    now = at('12:00');
    expectDone(await startUnder(shop, items[0] ?? '', at('08:00'), other));
    expectDone(await clockAt(shop, 'mechanic', 'stop', null, at('10:30')));
    const record = async () => {
      const { data } = await shop.as<{ practiceRecord: { people: Record<string, unknown>[] } }>(
        'manager',
        '{ practiceRecord(from: "2031-05-05", to: "2031-05-05") { __typename ... on PracticeRecord { people { name worked supervised overseen } } } }',
      );
      return data?.practiceRecord.people;
    };
    expect(await record()).toEqual([
      { name: 'Able Other', worked: 0, supervised: 0, overseen: 2.5 },
      { name: 'Test mechanic', worked: 2.5, supervised: 2.5, overseen: 0 },
    ]);
    const began = async () => {
      const { data } = await shop.as<{
        node: { stretches: { began: { id: string }; supervisedBy: { name: string } | null }[] };
      }>(
        'mechanic',
        'query($id: ID!) { node(id: $id) { ... on WorkItem { stretches { began { id } supervisedBy { name } } } } }',
        { id: items[0] },
      );
      return data?.node.stretches[0];
    };
    const eventId = (await began())?.began.id;
    const correct = (role: Role, supervision: object | undefined, when = at('08:00')) =>
      mutate(shop, role, 'correctClock', {
        eventId,
        at: when.toISOString(),
        ...(supervision && { supervision }),
        reason: 'It was the other one',
        clientEventId: randomUUID(),
      });
    expectDone(await correct('mechanic', { byId: inspector }));
    expect((await began())?.supervisedBy).toEqual({ name: 'Test inspector' });
    // A better time says nothing of who supervised.
    expectDone(await correct('mechanic', undefined, at('08:30')));
    expect((await began())?.supervisedBy).toEqual({ name: 'Test inspector' });
    expect(await record()).toEqual([
      { name: 'Test inspector', worked: 0, supervised: 0, overseen: 2 },
      { name: 'Test mechanic', worked: 2, supervised: 2, overseen: 0 },
    ]);
    expectDone(await correct('manager', {}, at('08:30')));
    expect((await began())?.supervisedBy).toBeNull();
    expect(await record()).toEqual([
      { name: 'Test mechanic', worked: 2, supervised: 0, overseen: 0 },
    ]);
  });

  it('nobody supervises themselves, an apprentice nobody, and a stop has no supervision', async () => {
    const { shop, items, other } = await withApprentice();
    now = at('12:00');
    const self = globalId('Person', shop.people.mechanic.id);
    expectRefused(
      await startUnder(shop, items[0] ?? '', at('08:00'), self),
      'BAD_INPUT',
      /not an apprentice, and not oneself/,
    );
    expectDone(await startUnder(shop, items[0] ?? '', at('08:00'), other));
    expectDone(await clockAt(shop, 'mechanic', 'stop', null, at('10:00')));
    const events = await shop.inside((tx) => tx.clockEvent.findMany({ orderBy: { at: 'asc' } }));
    const correct = (index: number, byId: string) =>
      mutate(shop, 'mechanic', 'correctClock', {
        eventId: globalId('ClockEvent', events[index]?.id ?? ''),
        at: events[index]?.at.toISOString(),
        supervision: { byId },
        reason: 'Somebody else',
        clientEventId: randomUUID(),
      });
    expectRefused(await correct(0, self), 'BAD_INPUT', /not oneself/);
    expectRefused(await correct(1, other), 'BAD_INPUT', /A stop has no supervision/);
  });
});

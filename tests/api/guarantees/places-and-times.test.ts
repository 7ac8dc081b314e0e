import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { startApi, type TestApi } from '../../support/api.ts';
import { makeShop, type TestShop } from '../../support/shop.ts';
import { makeOrder } from './rows.ts';

let api: TestApi;
let shop: TestShop;
let made: Awaited<ReturnType<typeof makeOrder>>;
beforeAll(async () => {
  api = await startApi();
  shop = await makeShop(api);
  made = await makeOrder(shop);
});
afterAll(() => api.stop());

const at = (hour: number) => new Date(Date.UTC(2031, 4, 5, hour));

describe('a person', () => {
  const stretch = (
    startedAt: Date,
    endedAt: Date | null,
    itemId = made.itemId,
    personId = shop.people.mechanic.id,
  ) => shop.inside((tx) => tx.stretch.create({ data: { personId, itemId, startedAt, endedAt } }));

  it('is never on two stretches at once, whatever the item', async () => {
    await stretch(at(8), at(10));
    await stretch(at(10), at(11));
    await expect(stretch(at(9), at(12), made.otherItemId)).rejects.toThrow(/stretch_one_at_a_time/);
    await expect(stretch(at(7), null, made.otherItemId)).rejects.toThrow(/stretch_one_at_a_time/);
    await stretch(at(12), null);
    await expect(stretch(at(20), at(21))).rejects.toThrow(/stretch_one_at_a_time/);
    await stretch(at(8), at(10), made.itemId, shop.people.inspector.id);
  });

  it('never stops before they started', async () => {
    await expect(stretch(at(9), at(8), made.itemId, shop.people.manager.id)).rejects.toThrow(
      /stretch_ends_after_it_starts/,
    );
  });

  it('cannot slip past by doing both at the same moment', async () => {
    const tries = await Promise.allSettled(
      Array.from({ length: 8 }, () =>
        stretch(at(14), at(15), made.itemId, shop.people.front_desk.id),
      ),
    );
    expect(tries.filter(({ status }) => status === 'fulfilled')).toHaveLength(1);
  });
});

describe('a stand', () => {
  const stay = (
    kind: 'actual' | 'planned',
    startsAt: Date,
    endsAt: Date | null,
    aircraftId: string,
    standId = shop.standId,
  ) =>
    shop.inside((tx) => tx.stay.create({ data: { kind, standId, aircraftId, startsAt, endsAt } }));
  const another = () =>
    shop.inside((tx) =>
      tx.aircraft.create({
        data: {
          shopId: shop.shopId,
          modelId: shop.modelId,
          registration: `QQ-${Math.random().toString(36).slice(2, 7)}`,
          serial: '2',
        },
      }),
    );

  it('holds one aircraft at a time in fact, and any number of plans', async () => {
    const second = await another();
    await stay('actual', at(8), null, shop.aircraftId);
    await expect(stay('actual', at(9), at(10), second.id)).rejects.toThrow(
      /stay_one_aircraft_a_stand/,
    );
    await stay('planned', at(9), at(10), second.id);
    await stay('planned', at(9), at(10), shop.aircraftId);
    await stay('actual', at(6), at(8), second.id);
  });

  it('is the only one that an aircraft stands on', async () => {
    const hangar = await shop.inside((tx) => tx.hangar.findFirstOrThrow());
    const stand = await shop.inside((tx) =>
      tx.stand.create({
        data: {
          hangarId: hangar.id,
          name: '2',
          xMm: 15_000,
          yMm: 1000,
          widthMm: 9000,
          depthMm: 9000,
        },
      }),
    );
    await expect(stay('actual', at(9), at(10), shop.aircraftId, stand.id)).rejects.toThrow(
      /stay_one_stand_an_aircraft/,
    );
    await expect(stay('actual', at(9), at(8), (await another()).id, stand.id)).rejects.toThrow(
      /stay_ends_after_it_starts/,
    );
  });
});

it('a component is in one place at a time', async () => {
  const component = await shop.inside((tx) =>
    tx.component.create({
      data: {
        shopId: shop.shopId,
        kind: 'engine',
        title: 'Engine',
        partNumber: 'E-1',
        serial: '7',
        tisHundredths: 0,
      },
    }),
  );
  const fitAt = (position: string, fittedAt: Date, removedAt: Date | null) =>
    shop.inside((tx) =>
      tx.componentFitting.create({
        data: {
          componentId: component.id,
          aircraftId: shop.aircraftId,
          position,
          fittedAt,
          removedAt,
          aircraftTisHundredths: 0,
        },
      }),
    );
  await fitAt('left', at(8), at(9));
  await fitAt('left', at(9), null);
  await expect(fitAt('right', at(10), null)).rejects.toThrow(/fitting_one_place_at_a_time/);
});

describe('a lot', () => {
  const lotOf = async (quantity: number) => {
    const part = await shop.inside((tx) =>
      tx.part.create({
        data: { shopId: shop.shopId, number: `P-${Math.random()}`, title: 'Part', unitPrice: '1' },
      }),
    );
    const lot = await shop.inside((tx) =>
      tx.lot.create({
        data: { partId: part.id, supplier: 'S', batch: 'B', receivedOn: at(0), unitCost: '1' },
      }),
    );
    await move(lot.id, 'receive', quantity);
    return lot.id;
  };
  const move = (lotId: string, kind: 'receive' | 'issue' | 'scrap' | 'return', quantity: number) =>
    shop.inside((tx) => tx.stockMovement.create({ data: { lotId, kind, quantity } }));

  it('never goes below zero, not even when eight hands reach for it at once', async () => {
    const lotId = await lotOf(5);
    const tries = await Promise.allSettled(
      Array.from({ length: 8 }, () => move(lotId, 'issue', -1)),
    );
    expect(tries.filter(({ status }) => status === 'fulfilled')).toHaveLength(5);
    await expect(move(lotId, 'issue', -1)).rejects.toThrow(/lot_never_below_zero/);
    const lot = await shop.inside((tx) => tx.lot.findUniqueOrThrow({ where: { id: lotId } }));
    expect(lot.onHand.toString()).toBe('0');
  });

  it('moves only by its movements, each with the sign of its kind', async () => {
    const lotId = await lotOf(1);
    await expect(move(lotId, 'issue', 1)).rejects.toThrow(/movement_sign/);
    await expect(move(lotId, 'receive', -1)).rejects.toThrow(/movement_sign/);
    await expect(
      shop.inside((tx) => tx.lot.update({ where: { id: lotId }, data: { onHand: 99 } })),
    ).rejects.toThrow(/permission denied|denied/i);
    const part = await shop.inside((tx) => tx.part.findFirstOrThrow());
    await expect(
      shop.inside((tx) =>
        tx.lot.create({
          data: {
            partId: part.id,
            supplier: 'S',
            batch: 'B',
            receivedOn: at(0),
            unitCost: '1',
            onHand: 3,
          },
        }),
      ),
    ).rejects.toThrow(/starts empty/);
  });
});

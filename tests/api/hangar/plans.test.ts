import { afterAll, beforeAll, expect, it } from 'vitest';
import { startApi, type TestApi } from '../../support/api.ts';
import type { TestShop } from '../../support/shop.ts';
import { at, floor, makeHangar, NOW, put, versionOf } from './small-hangar.ts';

/** Plans that are changed, carried out early, late or elsewhere, and what cannot get into the building. */
let api: TestApi;
beforeAll(async () => {
  api = await startApi({ now: () => NOW });
});
afterAll(async () => {
  expect(api.faults).toEqual([]);
  await api.stop();
});

const rows = async (shop: TestShop) =>
  (await floor(shop)).coming.map(({ kind, late, at: when, stay }) => [
    kind,
    late,
    when,
    stay.stand.name,
  ]);

it('a planned move lets the aircraft leave the stand it is on', async () => {
  const { shop, first, second, aircraft, stand, craft } = await makeHangar(api);
  await put(shop, 'moveAircraft', { aircraftId: craft(aircraft), standId: stand(first) });
  const move = {
    aircraftId: craft(aircraft),
    standId: stand(second),
    startsAt: at(24),
    endsAt: at(72),
    seenVersion: await versionOf(shop, aircraft),
  };
  expect(await put(shop, 'planStay', move)).toMatchObject({ kind: 'planned' });
  expect(await rows(shop)).toEqual([
    ['move', false, at(24).toISOString(), '2'],
    ['departure', false, at(72).toISOString(), '2'],
  ]);
  expect((await floor(shop)).conflicts).toEqual([]);
});

it('a planned departure is a row, is changed by another, and is refused in the past or off the floor', async () => {
  const { shop, first, aircraft, stand, craft } = await makeHangar(api);
  const leave = (hours: number) =>
    put(shop, 'planDeparture', { aircraftId: craft(aircraft), at: at(hours) });
  expect(await leave(5)).toMatchObject({ code: 'CONFLICT' });
  const { id } = await put(shop, 'moveAircraft', {
    aircraftId: craft(aircraft),
    standId: stand(first),
  });
  expect((await leave(30)).id).toBe(id);
  expect((await leave(50)).id).toBe(id);
  expect(await rows(shop)).toEqual([['departure', false, at(50).toISOString(), '1']]);
  expect(await leave(0)).toMatchObject({
    code: 'BAD_INPUT',
    message: expect.stringMatching(/needed is a time to come/) as string,
  });
  expect((await leave(24 * 400)).code).toBe('BAD_INPUT');
  expect(
    (await put(shop, 'planDeparture', { aircraftId: craft(aircraft), at: at(9) }, 'mechanic')).code,
  ).toBe('FORBIDDEN');
});

it('an aircraft that is moved or leaves before its planned day is not said to be late', async () => {
  const { shop, first, second, aircraft, stand, craft } = await makeHangar(api);
  await shop.inside((tx) =>
    tx.stay.create({
      data: { kind: 'actual', standId: first, aircraftId: aircraft, startsAt: at(-24) },
    }),
  );
  await put(shop, 'planStay', {
    aircraftId: craft(aircraft),
    standId: stand(first),
    startsAt: at(-24),
    endsAt: at(48),
  });
  await put(shop, 'moveAircraft', { aircraftId: craft(aircraft), standId: stand(second) });
  // Where it stands does not change when it leaves.
  expect(await rows(shop)).toEqual([['departure', false, at(48).toISOString(), '2']]);
  await put(shop, 'departAircraft', { aircraftId: craft(aircraft) });
  expect(await rows(shop)).toEqual([]);
  expect((await floor(shop)).conflicts).toEqual([]);
});

it('an arrival that comes early, and on another stand than planned, is the arrival all the same', async () => {
  const { shop, first, second, aircraft, stand, craft } = await makeHangar(api);
  const plan = await put(shop, 'planStay', {
    aircraftId: craft(aircraft),
    standId: stand(first),
    startsAt: at(24 * 3),
    endsAt: at(24 * 6),
  });
  const came = await put(shop, 'moveAircraft', {
    aircraftId: craft(aircraft),
    standId: stand(second),
    planId: plan.id,
    seenVersion: await versionOf(shop, aircraft),
  });
  expect(came).toMatchObject({ kind: 'actual', stand: { name: '2' } });
  expect(await rows(shop)).toEqual([['departure', false, at(24 * 6).toISOString(), '2']]);
});

it('occupancy counts hours that were taken and are free again, and none that were planned and not taken', async () => {
  const { shop, first, second, aircraft, larger } = await makeHangar(api);
  // It is noon. One left at six; the other was to come at four and has not: it takes noon to midnight, if it comes.
  await shop.inside(async (tx) => {
    await tx.stay.create({
      data: {
        kind: 'actual',
        standId: first,
        aircraftId: aircraft,
        startsAt: at(-30),
        endsAt: at(-6),
      },
    });
    await tx.stay.create({
      data: {
        kind: 'planned',
        standId: second,
        aircraftId: larger,
        startsAt: at(-8),
        endsAt: at(12),
      },
    });
  });
  const seen = await floor(shop);
  // Three stands: 6 h and 12 h of 3 × 24 h, and of 3 × 336 h.
  expect(seen.occupancyToday).toBeCloseTo(18 / 72, 12);
  expect(seen.occupancyFortnight).toBeCloseTo(18 / (3 * 336), 12);
});

it('a plan goes to another stand and other days, or is dropped; what stands in fact is neither', async () => {
  const { shop, first, second, small, aircraft, larger, stand, craft } = await makeHangar(api);
  const times = { startsAt: at(30), endsAt: at(60) };
  await shop.inside((tx) => tx.stand.update({ where: { id: first }, data: { depthMm: 13_000 } }));
  const plan = await put(shop, 'planStay', {
    aircraftId: craft(larger),
    standId: stand(first),
    startsAt: at(24),
    endsAt: at(48),
  });
  expect(
    (await put(shop, 'replanStay', { stayId: plan.id, standId: stand(small), ...times })).message,
  ).toMatch(/^Cannot plan QQ-117 on stand 3: parked it is 10\.9 m long and needs 12\.9 m/);
  expect(
    (await put(shop, 'replanStay', { stayId: plan.id, standId: stand(first), ...times })).id,
  ).toBe(plan.id);
  expect((await rows(shop)).map(([, , when]) => when)).toEqual([
    at(30).toISOString(),
    at(60).toISOString(),
  ]);
  const drop = async (stayId: string, role: 'manager' | 'mechanic' = 'manager') =>
    (
      await shop.as<{ dropPlan: { registration?: string; code?: string } }>(
        role,
        'mutation($input: DropPlanInput!) { dropPlan(input: $input) { ... on Aircraft { registration } ... on Refusal { code message } } }',
        { input: { stayId } },
      )
    ).data?.dropPlan;
  expect((await drop(plan.id, 'mechanic'))?.code).toBe('FORBIDDEN');
  expect(await drop(plan.id)).toEqual({ registration: 'QQ-117' });
  expect((await drop(plan.id))?.code).toBe('NOT_FOUND');
  expect(await rows(shop)).toEqual([]);
  const fact = await put(shop, 'moveAircraft', {
    aircraftId: craft(aircraft),
    standId: stand(second),
  });
  expect((await drop(fact.id))?.code).toBe('AGAINST_RULE');
  expect(
    (await put(shop, 'replanStay', { stayId: fact.id, standId: stand(first), ...times })).code,
  ).toBe('AGAINST_RULE');
  const other = await makeHangar(api);
  expect(
    (await put(other.shop, 'replanStay', { stayId: fact.id, standId: stand(first), ...times }))
      .code,
  ).toBe('NOT_FOUND');
});

it.each([
  // The test's hangar is 30 by 25 m with a door of 18 m.
  [
    'than the hangar',
    { parkedLengthMm: 40_000, parkedWidthMm: 42_000 },
    'Cannot bring QQ-900 into Test hangar: parked it is 40.0 m long and 42.0 m wide; inside, the hangar is 30.0 m by 25.0 m.',
  ],
  [
    'than its door',
    { parkedLengthMm: 10_000, parkedWidthMm: 18_100 },
    'Cannot bring QQ-900 into Test hangar: parked it is 18.1 m wide; the door is 18.0 m wide.',
  ],
  [
    'than its stands',
    { parkedLengthMm: 10_000, parkedWidthMm: 18_000 },
    "Cannot plan QQ-900 on stand 1: parked it is 18.0 m wide and needs 20.0 m with the shop's clearance; the stand is 12.0 m wide.",
  ],
])(
  'an aircraft larger %s is refused with the measures, and the floor still answers',
  async (_, parked, sentence) => {
    const { shop, first, stand, craft } = await makeHangar(api);
    const { id } = await shop.inside(async (tx) => {
      const model = await tx.aircraftModel.create({
        data: {
          shopId: shop.shopId,
          maker: 'Testmaker',
          name: 'T-900',
          kind: 'airplane_twin',
          lengthMm: parked.parkedLengthMm,
          spanMm: parked.parkedWidthMm,
          heightMm: 5000,
          ...parked,
        },
      });
      return tx.aircraft.create({
        data: { shopId: shop.shopId, modelId: model.id, registration: 'QQ-900', serial: '900' },
      });
    });
    const goal = { aircraftId: craft(id), standId: stand(first) };
    const times = { startsAt: at(1), endsAt: at(2) };
    expect(await put(shop, 'planStay', { ...goal, ...times })).toMatchObject({
      code: 'AGAINST_RULE',
      message: sentence,
    });
    expect((await put(shop, 'moveAircraft', goal)).message).toBe(sentence);
    // It stands there in fact, whoever put it there: the floor says that it cannot be.
    await shop.inside((tx) =>
      tx.stay.create({
        data: { kind: 'actual', standId: first, aircraftId: id, startsAt: at(-1) },
      }),
    );
    const seen = await floor(shop);
    expect(seen.stands.find(({ name }) => name === '1')?.stay?.aircraft.registration).toBe(
      'QQ-900',
    );
    expect(seen.conflicts.map(({ kind }) => kind)).toEqual(['too_tight']);
  },
);

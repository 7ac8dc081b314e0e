import { globalId } from '@fairlead/api/ids';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { startApi, type TestApi } from '../../support/api.ts';
import { floor, makeHangar, put, type StayAnswer, versionOf } from './small-hangar.ts';

/** Two people who drag the same aircraft: requests that really run at once, on an API with its clock on the wall. */
let api: TestApi;
beforeAll(async () => {
  api = await startApi();
});
afterAll(async () => {
  expect(api.faults).toEqual([]);
  await api.stop();
});

const inHours = (hours: number) => new Date(Date.now() + hours * 3_600_000);

it('of two who move one aircraft at once one does, and the other hears who, when and where', async () => {
  const { shop, first, second, aircraft, stand, craft } = await makeHangar(api);
  const plain = { aircraftId: craft(aircraft) };
  await put(shop, 'moveAircraft', { ...plain, standId: stand(second) });
  // Ten rounds: whoever comes first, never both and never none.
  for (let round = 0; round < 10; round += 1) {
    const seenVersion = await versionOf(shop, aircraft);
    const goal = round % 2 ? second : first;
    const answers = await Promise.all([
      put(shop, 'moveAircraft', { ...plain, standId: stand(goal), seenVersion }, 'mechanic'),
      put(shop, 'departAircraft', { ...plain, seenVersion }, 'front_desk'),
    ]);
    const done = answers.filter(({ id }) => id);
    const refused = answers.filter(({ id }) => !id);
    expect([done.length, refused.length]).toEqual([1, 1]);
    const moved = answers[0]?.id !== undefined;
    expect(refused[0]).toMatchObject({
      by: moved ? 'Test mechanic' : 'Test front_desk',
      at: expect.any(String) as string,
      stay: moved ? { stand: { name: expect.any(String) as string } } : null,
    });
    expect(Math.abs(Date.parse(refused[0]?.at ?? '') - Date.now())).toBeLessThan(60_000);
    expect(refused[0]?.message).toMatch(
      moved
        ? /was moved or planned anew by Test mechanic on .+: it stands on stand \d now\. Your change was not saved\.$/
        : /by Test front_desk on .+: it is on no stand now\. Your change was not saved\.$/,
    );
    const seen = await floor(shop);
    expect(seen.stands.filter(({ stay }) => stay).length).toBe(moved ? 1 : 0);
    await put(shop, 'moveAircraft', { ...plain, standId: stand(round % 2 ? second : first) });
  }
});

it('eight who drag one aircraft to eight places leave it in one', async () => {
  const { shop, first, second, aircraft, stand, craft } = await makeHangar(api);
  const seenVersion = await versionOf(shop, aircraft);
  const goals = [first, second, second, first, second, first, first, second];
  const answers = await Promise.all(
    goals.map((goal) =>
      put(shop, 'moveAircraft', {
        aircraftId: craft(aircraft),
        standId: stand(goal),
        seenVersion,
      }),
    ),
  );
  // Whoever wanted the same stand as the first has what they wanted, and is told so.
  const there = new Set(answers.flatMap(({ id }) => (id ? [id] : [])));
  expect(there.size).toBe(1);
  const stays = await shop.inside((tx) => tx.stay.findMany({ where: { aircraftId: aircraft } }));
  expect(stays.length).toBe(1);
  for (const answer of answers.filter(({ id }) => !id))
    expect(answer.message).toMatch(/it stands on stand \d now/);
});

it('plans are held to what was seen as moves are: two who replan one arrival', async () => {
  const { shop, first, second, aircraft, stand, craft } = await makeHangar(api);
  const plan = await put(shop, 'planStay', {
    aircraftId: craft(aircraft),
    standId: stand(first),
    startsAt: inHours(24),
    endsAt: inHours(48),
  });
  const seenVersion = await versionOf(shop, aircraft);
  const times = { startsAt: inHours(24), endsAt: inHours(48) };
  const later = { startsAt: inHours(30), endsAt: inHours(50) };
  const answers: StayAnswer[] = await Promise.all([
    put(shop, 'replanStay', { stayId: plan.id, standId: stand(second), ...times, seenVersion }),
    put(
      shop,
      'replanStay',
      { stayId: plan.id, standId: stand(first), ...later, seenVersion },
      'inspector',
    ),
  ]);
  expect(answers.filter(({ id }) => id).length).toBe(1);
  expect(answers.find(({ id }) => !id)?.message).toMatch(/it is on no stand now/);
  // On an older drawing it cannot be planned, moved or dropped either.
  const old = { seenVersion };
  const late = [
    await put(shop, 'planStay', {
      aircraftId: craft(aircraft),
      standId: stand(first),
      startsAt: inHours(72),
      endsAt: inHours(96),
      ...old,
    }),
    await put(shop, 'moveAircraft', {
      aircraftId: craft(aircraft),
      standId: stand(first),
      ...old,
    }),
  ];
  expect(late.map(({ id, by }) => [id, typeof by])).toEqual([
    [undefined, 'string'],
    [undefined, 'string'],
  ]);
  expect(
    (await shop.inside((tx) => tx.stay.findMany({ where: { aircraftId: aircraft } }))).length,
  ).toBe(1);
});

it('the same press twice is one act, whatever was seen', async () => {
  const { shop, first, aircraft, stand, craft } = await makeHangar(api);
  const seenVersion = await versionOf(shop, aircraft);
  const move = { aircraftId: craft(aircraft), standId: stand(first), seenVersion };
  const [one, other] = await Promise.all([
    put(shop, 'moveAircraft', move),
    put(shop, 'moveAircraft', move),
  ]);
  expect(one?.id).toBeDefined();
  expect(other?.id).toBe(one?.id);
});

it('what is no version of the aircraft is an old one, and an unknown plan no fault', async () => {
  const { shop, first, second, aircraft, stand, craft } = await makeHangar(api);
  const plain = { aircraftId: craft(aircraft) };
  const move = { ...plain, standId: stand(second) };
  await put(shop, 'moveAircraft', { ...plain, standId: stand(first) });
  for (const seenVersion of ['', 'x'.repeat(10_000), '\u00e9'])
    for (const answer of [
      await put(shop, 'moveAircraft', { ...move, seenVersion }),
      await put(shop, 'departAircraft', { ...plain, seenVersion }),
    ])
      expect(answer.message).toMatch(/was moved or planned anew by Test manager on/);
  const none = globalId('Stay', '00000000-0000-7000-8000-000000000000');
  expect((await put(shop, 'moveAircraft', { ...move, planId: none })).code).toBe('NOT_FOUND');
  const replan = { stayId: none, standId: stand(first), startsAt: inHours(1), endsAt: inHours(2) };
  expect((await put(shop, 'replanStay', replan)).code).toBe('NOT_FOUND');
});

import { randomUUID } from 'node:crypto';
import { globalId, parseGlobalId } from '@fairlead/api/ids';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { startApi, type TestApi } from '../../support/api.ts';
import { makeShop, makeTask, type TestShop } from '../../support/shop.ts';
import {
  chanceOf,
  noted,
  noteSeen,
  type SeenFinding,
  see,
  sighting,
  turnOut,
} from './findings-seen.ts';
import { expectDone, expectRefused, makeOrder } from './orders.ts';

let api: TestApi;
beforeAll(async () => {
  api = await startApi();
});
afterAll(async () => {
  expect(api.faults).toEqual([]);
  await api.stop();
});

const drip = sighting('fluid', { fluid: 'oil_dark', where: 'pump_drain' });
const DAY_MS = 24 * 3600 * 1000;
const ago = (ms: number) => new Date(Date.now() - ms);
const keyOf = (id: string) => parseGlobalId(id).id;

/** The finding's correction, done: written as the application. */
const correct = (shop: TestShop, orderId: string, finding: SeenFinding) =>
  shop.inside(async (tx) => {
    const position = (await tx.workItem.count({ where: { orderId } })) + 1;
    const item = await tx.workItem.create({
      data: { orderId, position, findingId: keyOf(finding.id), title: 'Correction', jasc: '7314' },
    });
    await tx.itemEvent.create({
      data: { itemId: item.id, kind: 'done', workDone: 'Replaced.', byId: shop.people.mechanic.id },
    });
  });
const doneItem = (shop: TestShop, orderId: string, jasc: string, at: Date) =>
  shop.inside(async (tx) => {
    const position = (await tx.workItem.count({ where: { orderId } })) + 1;
    const item = await tx.workItem.create({
      data: { orderId, position, title: `Work ${jasc}`, jasc },
    });
    await tx.itemEvent.create({
      data: { itemId: item.id, kind: 'done', workDone: 'Done.', at, byId: shop.people.mechanic.id },
    });
  });

describe('what is seen', () => {
  it('comes with the finding and is answered with causes, reasons, checks and cautions', async () => {
    const shop = await makeShop(api);
    await makeTask(shop, { title: 'Inspect fuel pump', jasc: '7314' });
    await makeTask(shop, { title: 'Replace engine-driven fuel pump', jasc: '7314' });
    const order = await makeOrder(shop);
    const finding = await noted(shop, order.id, { sighting: drip });
    expect(finding.symptom).toBe('fluid');
    const { suggestion } = finding;
    expect(suggestion).toMatchObject({
      symptom: 'fluid',
      symptomWords: 'Fluid where it should not be',
      standing: 'stands_out',
      seen: [
        { question: 'fluid', answer: 'oil_dark', words: 'Oil, dark', fromOrders: false },
        { question: 'where', answer: 'pump_drain', fromOrders: false },
      ],
      doneBefore: [],
      leak: null,
    });
    const causes = suggestion?.causes ?? [];
    expect(causes[0]).toMatchObject({
      cause: 'pump_oil_diaphragm',
      kind: 'fault',
      workJasc: '7314',
    });
    expect(causes[0]?.tasks.map(({ title }) => title)).toEqual([
      'Replace engine-driven fuel pump',
      'Inspect fuel pump',
    ]);
    expect(causes[0]?.reasons[0]).toMatchObject({ question: 'where', speaks: 'for' });
    expect(causes[0]?.reasons[0]?.bits).toBeGreaterThan(3);
    expect(causes.reduce((sum, { probability }) => sum + probability, 0)).toBeCloseTo(1, 9);
    expect(causes.map(({ probability }) => probability)).toEqual(
      causes.map(({ probability }) => probability).toSorted((one, other) => other - one),
    );
    // A helicopter has no strut.
    expect(causes.map(({ cause }) => cause)).not.toContain('strut_seal');
    expect(suggestion?.next[0]?.bits).toBeGreaterThan(0);
    expect(suggestion?.cautions.join(' ')).toContain('a person who holds the certificate');
    expect(suggestion?.restsOn).toContain('this shop has closed none of the kind yet');
  });

  it('may be left out: then nothing is suggested', async () => {
    const shop = await makeShop(api);
    const order = await makeOrder(shop);
    const finding = await noted(shop, order.id);
    expect(finding).toMatchObject({ symptom: null, suggestion: null, turnedOut: null });
  });

  it('is refused by name where the tables do not have it, and then no finding is noted', async () => {
    const shop = await makeShop(api);
    const order = await makeOrder(shop);
    const wrong: [ReturnType<typeof sighting>, RegExp][] = [
      [sighting('noise'), /There is no symptom "noise"; there are fluid, /],
      [sighting('fluid', { taste: 'sweet' }), /has no question "taste"; it has fluid, /],
      [sighting('fluid', { fluid: 'beer' }), /cannot be answered "beer"; it takes oil_clean, /],
      [sighting('fluid', { taste: null }), /has no question "taste"/],
      [
        {
          symptom: 'fluid',
          answers: [
            { question: 'fluid', answer: 'water' },
            { question: 'fluid', answer: 'grease' },
          ],
        },
        /"fluid" is answered twice/,
      ],
      [
        {
          symptom: 'fluid',
          answers: Array.from({ length: 41 }, () => ({ question: 'fluid', answer: 'water' })),
        },
        /sighting.answers has 41 entries: at most 40/,
      ],
      [sighting('__proto__', { toString: 'constructor' }), /There is no symptom/],
      [sighting('fluid', { toString: 'constructor' }), /has no question "toString"/],
    ];
    for (const [given, says] of wrong)
      expectRefused(await noteSeen(shop, order.id, { sighting: given }), 'BAD_INPUT', says);
    expect(await shop.inside((tx) => tx.finding.count())).toBe(0);
  });

  it('sent twice with its finding is kept once', async () => {
    const shop = await makeShop(api);
    const order = await makeOrder(shop);
    const over = { sighting: drip, clientEventId: randomUUID() };
    const [first, second] = [await noted(shop, order.id, over), await noted(shop, order.id, over)];
    expect(second.id).toBe(first.id);
    expect(await shop.inside((tx) => tx.findingSighting.count())).toBe(1);
  });
});

describe('seeing more of a finding', () => {
  it('adds an answer, changes one and takes one back; earlier sightings stay', async () => {
    const shop = await makeShop(api);
    const order = await makeOrder(shop);
    const finding = await noted(shop, order.id, { sighting: drip });
    const checked = expectDone(
      await see(shop, finding.id, sighting('fluid', { check_pump: 'tube' })),
    ) as SeenFinding;
    expect(chanceOf(checked, 'pump_oil_diaphragm')).toBeGreaterThan(
      chanceOf(finding, 'pump_oil_diaphragm'),
    );
    const changed = expectDone(
      await see(shop, finding.id, sighting('fluid', { check_pump: 'dry', fluid: null }), {
        role: 'inspector',
      }),
    ) as SeenFinding;
    expect(changed.suggestion?.seen.map(({ question, answer }) => [question, answer])).toEqual([
      ['where', 'pump_drain'],
      ['check_pump', 'dry'],
    ]);
    const kept = await shop.inside((tx) =>
      tx.findingSighting.findMany({ orderBy: { id: 'asc' }, select: { answers: true } }),
    );
    expect(kept.map(({ answers }) => answers)).toEqual([
      { fluid: 'oil_dark', where: 'pump_drain' },
      { check_pump: 'tube' },
      { check_pump: 'dry', fluid: null },
    ]);
  });

  it('may find that it is something else altogether: the last symptom counts', async () => {
    const shop = await makeShop(api);
    const order = await makeOrder(shop);
    const { id } = await noted(shop, order.id, { sighting: drip });
    const turned = expectDone(
      await see(shop, id, sighting('oil_level', { looks: 'thin' })),
    ) as SeenFinding;
    expect(turned.suggestion).toMatchObject({ symptom: 'oil_level' });
    expect(turned.suggestion?.causes[0]?.cause).toBe('pump_into_case');
  });

  it('sent twice counts once, and nobody takes the id of somebody else’s', async () => {
    const shop = await makeShop(api);
    const order = await makeOrder(shop);
    const { id } = await noted(shop, order.id, { sighting: drip });
    const clientEventId = randomUUID();
    const more = sighting('fluid', { how_much: 'seep' });
    expectDone(await see(shop, id, more, { clientEventId }));
    expectDone(await see(shop, id, more, { clientEventId }));
    expect(await shop.inside((tx) => tx.findingSighting.count())).toBe(2);
    expectRefused(
      await see(shop, id, more, { clientEventId, role: 'inspector' }),
      'CONFLICT',
      /Another sighting has this clientEventId/,
    );
    expectRefused(
      await see(shop, id, more, { clientEventId: 'mine' }),
      'BAD_INPUT',
      /needed is a UUID/,
    );
  });

  it('is for those who look at aircraft, and for findings of their own shop', async () => {
    const [shop, other] = [await makeShop(api), await makeShop(api)];
    const order = await makeOrder(shop);
    const { id } = await noted(shop, order.id, { sighting: drip });
    expectRefused(await see(shop, id, drip, { role: 'front_desk' }), 'FORBIDDEN', /mechanic/);
    expectRefused(await see(other, id, drip), 'NOT_FOUND', /no such finding/);
    expectRefused(
      await see(shop, globalId('Finding', randomUUID()), drip),
      'NOT_FOUND',
      /no such finding/,
    );
    expectRefused(await see(shop, order.id, drip), 'BAD_INPUT', /id of a WorkOrder/);
  });
});

describe('what the orders say', () => {
  it('is used where all the work before was of one kind, and named as taken from there', async () => {
    const shop = await makeShop(api);
    const order = await makeOrder(shop);
    await doneItem(shop, order.orderId, '8550', ago(DAY_MS / 2));
    await doneItem(shop, order.orderId, '7110', ago(DAY_MS / 3));
    const finding = await noted(shop, order.id, { sighting: drip });
    expect(finding.suggestion?.seen).toContainEqual(
      expect.objectContaining({ question: 'work', answer: 'oil', fromOrders: true }),
    );
    // Whether it ran since, nobody knows: the engine's meter was not read.
    expect(finding.suggestion?.seen.map(({ question }) => question)).not.toContain('run');
    const told = expectDone(
      await see(shop, finding.id, sighting('fluid', { work: 'nothing' })),
    ) as SeenFinding;
    expect(told.suggestion?.seen).toContainEqual(
      expect.objectContaining({ question: 'work', answer: 'nothing', fromOrders: false }),
    );
  });

  it('is not guessed from where it was of several kinds: those are listed for the finder', async () => {
    const shop = await makeShop(api);
    const order = await makeOrder(shop);
    await doneItem(shop, order.orderId, '8550', ago(DAY_MS / 2));
    await doneItem(shop, order.orderId, '7421', ago(DAY_MS / 3));
    await doneItem(shop, order.orderId, '2821', ago(4 * DAY_MS));
    const { suggestion } = await noted(shop, order.id, { sighting: drip });
    expect(suggestion?.seen.map(({ question }) => question)).not.toContain('work');
    expect(suggestion?.doneBefore.map(({ title, work }) => [title, work])).toEqual([
      ['Work 7421', 'ignition'],
      ['Work 8550', 'oil'],
    ]);
  });

  it('knows that the engine ran since where the aircraft flew away and came back, or a meter moved', async () => {
    const shop = await makeShop(api);
    const former = await makeOrder(shop);
    await doneItem(shop, former.orderId, '8550', ago(2 * DAY_MS));
    const order = await makeOrder(shop);
    const ran = expect.objectContaining({ question: 'run', answer: 'yes', fromOrders: true });
    expect((await noted(shop, order.id, { sighting: drip })).suggestion?.seen).toContainEqual(ran);

    const metered = await makeShop(api);
    const same = await makeOrder(metered);
    await doneItem(metered, same.orderId, '8550', ago(DAY_MS));
    await metered.inside((tx) =>
      tx.meterReading.createMany({
        data: [
          [2 * DAY_MS, 100_000],
          [DAY_MS / 2, 100_010],
        ].map(([before, hundredths]) => ({
          aircraftId: metered.aircraftId,
          orderId: same.orderId,
          meter: 'engine_on' as const,
          readingHundredths: hundredths!,
          tisHundredths: hundredths!,
          readAt: ago(before!),
        })),
      }),
    );
    expect((await noted(metered, same.id, { sighting: drip })).suggestion?.seen).toContainEqual(
      ran,
    );
  });
});

describe('what it turned out to be', () => {
  it('is said once it is corrected; that nothing is wrong, at any time', async () => {
    const shop = await makeShop(api);
    const order = await makeOrder(shop);
    const finding = await noted(shop, order.id, { sighting: drip });
    for (const early of [
      { kind: 'listed', cause: 'pump_oil_diaphragm' },
      { kind: 'other', words: 'A split hose behind it.' },
    ])
      expectRefused(
        await turnOut(shop, finding.id, early),
        'AGAINST_RULE',
        /Finding 1, “Something wet”, is not corrected yet/,
      );
    const normal = expectDone(
      await turnOut(shop, finding.id, { kind: 'listed', cause: 'spilled_oil' }),
    ) as SeenFinding;
    expect(normal.turnedOut).toMatchObject({
      kind: 'listed',
      cause: 'spilled_oil',
      says: 'Oil spilled while it was changed',
    });
    await correct(shop, order.orderId, finding);
    const said = expectDone(
      await turnOut(
        shop,
        finding.id,
        { kind: 'other', words: ' A split hose behind it. ' },
        'inspector',
      ),
    ) as SeenFinding;
    expect(said.turnedOut).toEqual({
      symptom: 'fluid',
      kind: 'other',
      cause: '',
      says: 'A split hose behind it.',
      by: { name: 'Test inspector' },
    });
    // The same again by the same person is the same; both words are kept.
    await turnOut(
      shop,
      finding.id,
      { kind: 'other', words: 'A split hose behind it.' },
      'inspector',
    );
    expect(await shop.inside((tx) => tx.findingOutcome.count())).toBe(2);
  });

  it('names a cause that is listed, or has words', async () => {
    const shop = await makeShop(api);
    const order = await makeOrder(shop);
    const finding = await noted(shop, order.id, { sighting: drip });
    await correct(shop, order.orderId, finding);
    const refused = async (input: Parameters<typeof turnOut>[2], says: RegExp) =>
      expectRefused(await turnOut(shop, finding.id, input), 'BAD_INPUT', says);
    await refused({ kind: 'listed', cause: 'gremlins' }, /no cause "gremlins" listed for fluid/);
    await refused({ kind: 'listed', cause: 'something_else' }, /Anything else is said in words/);
    await refused({ kind: 'listed' }, /no cause "" listed/);
    await refused({ kind: 'other', words: 'x' }, /words has 1 characters: needed are 3 to 500/);
    await refused({ kind: 'normal' }, /words has 0 characters/);
    await refused(
      { kind: 'normal', words: 'Dew.', symptom: 'noise' },
      /There is no symptom "noise"/,
    );
    expectRefused(
      await turnOut(shop, finding.id, { kind: 'normal', words: 'Dew.' }, 'front_desk'),
      'FORBIDDEN',
      /mechanic/,
    );
    const other = await makeShop(api);
    expectRefused(
      await turnOut(other, finding.id, { kind: 'normal', words: 'Dew.' }),
      'NOT_FOUND',
      /no such finding/,
    );
    expect(await shop.inside((tx) => tx.findingOutcome.count())).toBe(0);
  });

  it('teaches the shop, and no other; a finding teaches nothing about itself', async () => {
    const [shop, other] = [await makeShop(api), await makeShop(api)];
    const [order, elsewhere] = [await makeOrder(shop), await makeOrder(other)];
    const before = await noted(shop, order.id, { sighting: drip });
    for (let i = 0; i < 6; i += 1) {
      const closed = await noted(shop, order.id, { sighting: drip });
      await correct(shop, order.orderId, closed);
      expectDone(await turnOut(shop, closed.id, { kind: 'listed', cause: 'pump_pad_gasket' }));
    }
    const after = await noted(shop, order.id, { sighting: drip });
    expect(chanceOf(after, 'pump_pad_gasket')).toBeGreaterThan(
      4 * chanceOf(before, 'pump_pad_gasket'),
    );
    expect(after.suggestion?.restsOn).toContain('on 6 closed findings of this shop');
    const there = await noted(other, elsewhere.id, { sighting: drip });
    expect(chanceOf(there, 'pump_pad_gasket')).toBeCloseTo(chanceOf(before, 'pump_pad_gasket'), 12);
    // Its own outcome does not move it, but for the seconds that the others have aged; the last word on another counts, and what is said in words is something else.
    await correct(shop, order.orderId, after);
    const itself = expectDone(
      await turnOut(shop, after.id, { kind: 'listed', cause: 'pump_pad_gasket' }),
    ) as SeenFinding;
    expect(chanceOf(itself, 'pump_pad_gasket')).toBeCloseTo(chanceOf(after, 'pump_pad_gasket'), 5);
    expectDone(await turnOut(shop, after.id, { kind: 'other', words: 'A cracked case.' }));
    const last = await noted(shop, order.id, { sighting: drip });
    expect(last.suggestion?.restsOn).toContain('on 7 closed findings of this shop');
    expect(chanceOf(last, 'something_else')).toBeGreaterThan(chanceOf(after, 'something_else'));
    expect(chanceOf(last, 'pump_pad_gasket')).toBeLessThan(chanceOf(after, 'pump_pad_gasket'));
  });

  it('is audited, with who said it', async () => {
    const shop = await makeShop(api);
    const order = await makeOrder(shop);
    const { id } = await noted(shop, order.id, { sighting: drip });
    expectDone(await turnOut(shop, id, { kind: 'normal', words: 'Rain ran down the tube.' }));
    const rows = await shop.inside((tx) =>
      tx.audit.findMany({
        where: { tableName: { in: ['finding_sighting', 'finding_outcome'] } },
        orderBy: { id: 'asc' },
        select: { tableName: true, action: true, personId: true },
      }),
    );
    expect(rows).toEqual(
      ['finding_sighting', 'finding_outcome'].map((tableName) => ({
        tableName,
        action: 'insert',
        personId: shop.people.mechanic.id,
      })),
    );
  });
});

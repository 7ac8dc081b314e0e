import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { startApi, type TestApi } from '../../support/api.ts';
import { makeShop, makeTask } from '../../support/shop.ts';
import { decide, draft, forOwner, gid, quoted, sentQuote, tasksOf, yesTo } from './quoting-shop.ts';

let api: TestApi;
beforeAll(async () => {
  api = await startApi();
});
afterAll(async () => {
  expect(api.faults).toEqual([]);
  await api.stop();
});

interface Found {
  title: string;
  probability: number;
  from: number;
  to: number;
  seen: number;
  of: number;
  seenElsewhere: number;
  ofElsewhere: number;
  sentence: string;
  hoursP50: number;
  parts: string;
}
interface With {
  likely: string;
  p80: string;
  high: string;
  hoursP90: number;
  sentence: string;
  findings: Found[];
}
const WITH = `withFindings { likely p80 high hoursP90 sentence findings { title probability from to seen of seenElsewhere ofElsewhere sentence hoursP50 parts } }`;

/** A shop with a package of one task of 4 h, and work of 3 h that may be found in it. Without history hours are the standard's. */
async function shopWithPackage(over: { priceMinor?: bigint } = {}) {
  const shop = await makeShop(api);
  const inspect = await makeTask(shop, { title: 'Inspect the bay', standardHours: '4' });
  const correct = await makeTask(shop, { title: 'Replace the hose', standardHours: '3' });
  const packageId = await shop.inside(async (tx) => {
    const { id } = await tx.package.create({
      data: { shopId: shop.shopId, key: 'p', title: 'The hundred', ...over },
    });
    await tx.packageTask.create({ data: { packageId: id, taskId: inspect.id, position: 1 } });
    return id;
  });
  return { shop, inspect, correct, packageId };
}
type Made = Awaited<ReturnType<typeof shopWithPackage>>;

const tell = async (
  { shop, packageId, correct }: Made,
  over: Record<string, unknown>,
  role: 'manager' | 'front_desk' = 'manager',
) => {
  const answer = await shop.as<{ tellFinding: Record<string, unknown> }>(
    role,
    `mutation ($input: TellFindingInput!) { tellFinding(input: $input) { __typename ... on Refusal { code message field }
      ... on Package { toldFindings { seen of parts note toldBy { name } model { name } } } } }`,
    { input: { packageId: gid('Package', packageId), taskId: gid('Task', correct.id), ...over } },
  );
  return answer.data?.tellFinding;
};
const forecast = async ({ shop, packageId }: Made, tasks: { taskId: string }[] = []) => {
  const answer = await shop.as<{
    quoteForecast: {
      likely: string;
      high: string;
      hours: { p90: number };
      withFindings: With | null;
    };
  }>(
    'front_desk',
    `query ($input: QuoteForecastInput!) { quoteForecast(input: $input) { ... on Refusal { message } ... on QuoteForecast { likely high hours { p90 } ${WITH} } } }`,
    {
      input: {
        aircraftId: gid('Aircraft', shop.aircraftId),
        packageId: gid('Package', packageId),
        tasks,
      },
    },
  );
  if (!answer.data) throw new Error(JSON.stringify(answer));
  return answer.data.quoteForecast;
};

describe('what tends to be found in a package', () => {
  test('nothing is foretold where nothing was ever found or told', async () => {
    const made = await shopWithPackage();
    expect((await forecast(made)).withFindings).toBeNull();
  });

  test('what the manager told moves the nine-in-ten, never the offer', async () => {
    const made = await shopWithPackage();
    const before = await forecast(made);
    expect(
      await tell(made, { seen: 9, of: 30, parts: '24000', note: 'Counted in the old job book.' }),
    ).toMatchObject({
      toldFindings: [
        {
          seen: 9,
          of: 30,
          parts: '24000',
          note: 'Counted in the old job book.',
          toldBy: { name: 'Test manager' },
          model: null,
        },
      ],
    });
    const after = await forecast(made);
    expect([after.likely, after.high, after.hours]).toEqual([
      before.likely,
      before.high,
      before.hours,
    ]);
    const { withFindings } = after;
    const [found] = withFindings?.findings ?? [];
    // Told of all models: this one never looked for it, so its share is theirs with more doubt.
    expect(found).toMatchObject({ seen: 0, of: 0, seenElsewhere: 9, ofElsewhere: 30 });
    expect(found?.probability).toBeGreaterThan(0.2);
    expect(found?.probability).toBeLessThan(0.4);
    expect(found?.from).toBeLessThan(found?.probability ?? 0);
    expect(found?.to).toBeGreaterThan(found?.probability ?? 1);
    expect(found).toMatchObject({ title: 'Replace the hose', parts: '24000' });
    expect(found?.hoursP50).toBeCloseTo(3, 9);
    // At a probability of p the 90 % point lies where the finding is there: above the firm P90 plus most of it.
    expect(Number(withFindings?.high)).toBeGreaterThan(Number(after.high) + 24_000);
    expect(withFindings?.sentence).toContain('nine in ten should come out under');
    expect(withFindings?.sentence).toContain('offered by itself first');
    // One in three at the most: the middle moves less than the whole finding, about 90 % of the offer, would move it.
    expect(Math.abs(Number(withFindings?.likely) / Number(after.likely) - 1)).toBeLessThan(0.4);
  });

  test('what is found every time adds its hours at the rate and its parts, under a flat price too', async () => {
    for (const priceMinor of [undefined, 200_000n]) {
      const made = await shopWithPackage(priceMinor === undefined ? {} : { priceMinor });
      await tell(made, {
        seen: 5000,
        of: 5000,
        parts: '10000',
        modelId: gid('AircraftModel', made.shop.modelId),
      });
      const { withFindings, likely } = await forecast(made);
      const [found] = withFindings?.findings ?? [];
      expect(found).toMatchObject({ seen: 5000, of: 5000, seenElsewhere: 0, ofElsewhere: 0 });
      expect(found?.probability).toBeGreaterThan(0.999);
      // By hand: 3 h at 95.00 and 100.00 of parts, the median of a sum a little above the sum of medians.
      const added = (Number(withFindings?.likely) - Number(likely)) / (3 * 9500 + 10_000);
      expect(added).toBeGreaterThan(0.95);
      expect(added).toBeLessThan(1.25);
    }
  });

  test('what is told later holds, what is rare is not said, and what is offered already is not foretold', async () => {
    const made = await shopWithPackage();
    await tell(made, { seen: 9, of: 30 });
    expect((await forecast(made, tasksOf([made.correct]))).withFindings).toBeNull();
    await tell(made, { seen: 0, of: 3000 });
    expect((await forecast(made)).withFindings).toBeNull();
  });

  test("the shop's own released orders are counted, whatever the owner answered", async () => {
    const made = await shopWithPackage();
    const { shop, packageId, correct } = made;
    const visit = async (found: boolean) => {
      const quote = await sentQuote(shop, {
        ...forOwner(shop),
        packageId: gid('Package', packageId),
        tasks: [],
      });
      quoted(await decide(shop, yesTo(shop, quote)));
      await shop
        .inside(async (tx) => {
          const { orderId } = await tx.quote.findFirstOrThrow({ where: { number: quote.number } });
          if (found) {
            const finding = await tx.finding.create({
              data: {
                orderId: orderId ?? '',
                number: 1,
                title: 'Chafed',
                provisionalClass: 'discrepancy',
                foundAt: new Date(),
                foundById: shop.people.mechanic.id,
                clientEventId: crypto.randomUUID(),
              },
            });
            return { findingId: finding.id, orderId };
          }
          return { findingId: null, orderId };
        })
        .then(async ({ findingId, orderId }) => {
          if (findingId)
            quoted(
              await draft(shop, {
                ...forOwner(shop),
                findingId: gid('Finding', findingId),
                tasks: tasksOf([correct]),
              }),
            );
          await shop.inside((tx) =>
            tx.orderEvent.create({
              data: { orderId: orderId ?? '', kind: 'released', outcome: 'airworthy' },
            }),
          );
        });
    };
    await visit(true);
    await visit(false);
    await visit(false);
    await visit(true);
    const { withFindings } = await forecast(made);
    expect(withFindings?.findings).toMatchObject([{ seen: 2, of: 4, title: 'Replace the hose' }]);
    expect(withFindings?.findings[0]?.sentence).toContain('Seen 2 of 4 times on Testmaker T-2');
  });

  test('it is kept with the revision, as it was foretold', async () => {
    const made = await shopWithPackage();
    await tell(made, { seen: 9, of: 30 });
    const quote = quoted(
      await draft(made.shop, {
        ...forOwner(made.shop),
        packageId: gid('Package', made.packageId),
        tasks: [],
      }),
    );
    const foretold = (await forecast(made)).withFindings;
    await tell(made, { seen: 29, of: 30 });
    const kept = await made.shop.as<{ node: { newest: { withFindings: With } } }>(
      'front_desk',
      `query ($id: ID!) { node(id: $id) { ... on Quote { newest { ${WITH} } } } }`,
      { id: quote.id },
    );
    expect(kept.data?.node.newest.withFindings).toEqual(foretold);
  });

  test('refuses what cannot be, and who may not tell', async () => {
    const made = await shopWithPackage();
    const other = await shopWithPackage();
    expect(await tell(made, { seen: 4, of: 3 })).toMatchObject({
      code: 'BAD_INPUT',
      message: expect.stringContaining('Found 4 times in 3 was refused'),
    });
    expect(await tell(made, { seen: -1, of: 3 })).toMatchObject({
      code: 'BAD_INPUT',
      field: 'seen',
    });
    expect(await tell(made, { seen: 1, of: 3, parts: '-5' })).toMatchObject({ field: 'parts' });
    expect(await tell(made, { seen: 1, of: 3 }, 'front_desk')).toMatchObject({ code: 'FORBIDDEN' });
    expect(
      await tell(made, { seen: 1, of: 3, taskId: gid('Task', made.inspect.id) }),
    ).toMatchObject({
      code: 'AGAINST_RULE',
      message: expect.stringContaining('part of "The hundred"'),
    });
    expect(
      await tell(made, { seen: 1, of: 3, packageId: gid('Package', other.packageId) }),
    ).toMatchObject({ code: 'NOT_FOUND' });
    expect(
      await tell(made, { seen: 1, of: 3, modelId: gid('AircraftModel', other.shop.modelId) }),
    ).toMatchObject({ code: 'NOT_FOUND' });
  });
});

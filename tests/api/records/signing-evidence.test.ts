import { globalId } from '@fairlead/api/ids';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { startApi, type TestApi } from '../../support/api.ts';
import { makeShop, type TestShop } from '../../support/shop.ts';
import { entryDraft, makeVisit, signEntry } from '../../support/visit.ts';

/** What a signature rests on besides certificate and rating: 14 CFR 65.81(a), 65.83, 65.93, 145.157, 145.161. */
let api: TestApi;
beforeAll(async () => {
  // 31 March 2026 is past: the second year of an inspection authorization.
  api = await startApi({ now: () => new Date('2026-12-01T09:00:00Z') });
});
afterAll(async () => {
  expect(api.faults).toEqual([]);
  await api.stop();
});

/** A shop whose inspector has certificates, and nothing else kept. */
async function bare(inspection: 'annual' | 'hundred_hour' | null = null, over = {}) {
  const shop = await makeShop(api, over);
  await withdrawAll(shop);
  const visit = await makeVisit(shop, { inspection });
  const asked = {
    ...{ orderId: visit.order, bookId: globalId('RecordBook', shop.bookId), outcome: 'airworthy' },
  };
  return { shop, asked };
}
const withdrawAll = (shop: TestShop) =>
  shop.inside(async (tx) => {
    for (const { id, personId, kind, subject, validFrom } of await tx.qualification.findMany({
      where: { withdrawnBy: null, withdrawsId: null },
    }))
      await tx.qualification.create({
        data: {
          ...{ personId, kind, subject, validFrom, withdrawsId: id, paper: 'Test' },
          byId: shop.people.manager.id,
        },
      });
  });
interface Said {
  id?: string;
  code?: string;
  message?: string;
  field?: string | null;
}
async function state(
  shop: TestShop,
  input: Record<string, unknown>,
  role: Parameters<TestShop['as']>[0] = 'manager',
) {
  const { data, errors } = await shop.as<{ stateQualification: Said }>(
    role,
    'mutation($input: StateQualificationInput!) { stateQualification(input: $input) { ... on Qualification { id } ... on Refusal { code message field } } }',
    {
      input: {
        personId: globalId('Person', shop.people.inspector.id),
        ...{ validFrom: '2026-01-05', paper: 'Own log, page 4' },
        ...input,
      },
    },
  );
  return data?.stateQualification ?? { message: JSON.stringify(errors) };
}
const because = async (shop: TestShop, asked: Parameters<typeof entryDraft>[1]) =>
  (await entryDraft(shop, asked)).because;

it('work that the signer never did is not approved until it is entered with its paper; then once signed it is known', async () => {
  const { shop, asked } = await bare();
  const refused = await signEntry(shop, asked);
  expect(refused).toMatchObject({
    code: 'AGAINST_RULE',
    message: expect.stringMatching(
      /work that they did satisfactorily before.*\(14 CFR 65\.81\(a\)\)/,
    ),
  });
  await state(shop, { kind: 'work_shown', subject: 'minor_work_airframe' });
  expect(await because(shop, asked)).toMatch(/at least 6 months .* 1 is kept \(14 CFR 65\.83\)/);
  await state(shop, { kind: 'served', validUntil: '2026-06-02' });
  expect((await signEntry(shop, asked)).text).toContain('approves return to service');
});

it('an annual in the second year rests on an activity, and on nothing that was withdrawn', async () => {
  const { shop, asked } = await bare('annual');
  await state(shop, { kind: 'work_done', subject: 'annual_inspection' });
  await state(shop, { kind: 'found_able' });
  expect(await because(shop, asked)).toContain('(14 CFR 65.93(c))');
  const course = await state(shop, { kind: 'inspection_activity', validFrom: '2025-11-03' });
  expect((await entryDraft(shop, asked)).mayApprove).toBe(true);
  const back = () =>
    shop.as<{ withdrawQualification: Said }>(
      'manager',
      'mutation($id: ID!) { withdrawQualification(qualificationId: $id, words: "Course not accepted") { ... on Qualification { id withdrawn } ... on Refusal { code } } }',
      { id: course.id },
    );
  expect((await back()).data?.withdrawQualification).toMatchObject({
    withdrawn: 'Course not accepted',
  });
  expect(await because(shop, asked)).toContain('(14 CFR 65.93(c))');
  expect((await back()).data?.withdrawQualification).toEqual({ code: 'CONFLICT' });
});

it('a repair station signs by its ratings, and by those whom its roster names for a release', async () => {
  const { shop, asked } = await bare(null, {
    standing: 'repair_station',
    certificateNumber: 'T9R',
  });
  await shop.inside((tx) =>
    tx.certificate.updateMany({
      where: { kind: 'mechanic_airframe' },
      data: { validUntil: new Date('2026-11-30') },
    }),
  );
  await shop.inside((tx) =>
    tx.certificate.createMany({
      data: (['repair_station_inspector', 'repairman'] as const).map((kind) => ({
        ...{ personId: shop.people.inspector.id, kind, number: 'R-7' },
        validFrom: new Date('2025-01-01'),
      })),
    }),
  );
  expect(await because(shop, asked)).toContain('this repair station has no airframe rating');
  await state(shop, { personId: null, kind: 'station_rating', subject: 'airframe' });
  expect(await because(shop, asked)).toContain('(14 CFR 145.157, 145.161(a)(3))');
  await state(shop, { kind: 'release_authorised', subject: 'airframe', validUntil: '2026-11-30' });
  expect((await entryDraft(shop, asked)).mayApprove).toBe(false);
  await state(shop, { kind: 'release_authorised', subject: 'airframe' });
  expect(await because(shop, asked)).toContain('inspector for the repair station, certificate T9R');
  expect((await signEntry(shop, asked)).id).toBeDefined();
});

it.each<[Record<string, unknown>, string]>([
  [{ kind: 'work_done', subject: 'flying' }, 'subject'],
  [{ kind: 'served', subject: 'airframe' }, 'subject'],
  [{ kind: 'station_rating', subject: 'airframe' }, 'personId'],
  [{ kind: 'served', personId: null }, 'personId'],
  [{ kind: 'served', validFrom: '2026-12-02' }, 'validFrom'],
  [{ kind: 'served', validUntil: '2026-01-04' }, 'validUntil'],
  [{ kind: 'served', paper: ' ' }, 'paper'],
])('%o is refused, at its field', async (input, field) => {
  const { shop } = await bare();
  const before = await shop.inside((tx) => tx.qualification.count());
  expect(await state(shop, input)).toMatchObject({ code: 'BAD_INPUT', field });
  expect((await state(shop, { kind: 'served' }, 'inspector')).code).toBe('FORBIDDEN');
  expect(await shop.inside((tx) => tx.qualification.count())).toBe(before);
});

/** A history file that comes through the browser: on the desk, read through, taken in whole or not at all. */
import { jobTasks } from '@fairlead/api/jobs';
import { createClient } from '@fairlead/database';
import { createWorker, type Worker } from '@fairlead/database/jobs';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { startApi, type TestApi } from '../../support/api.ts';
import { makeShop, type TestShop } from '../../support/shop.ts';

let api: TestApi;
let worker: Worker;
let client: ReturnType<typeof createClient>;
const startWorker = () =>
  createWorker({ appUrl: api.database.appUrl, tasks: jobTasks(client), pollInterval: 100 });
beforeAll(async () => {
  api = await startApi();
  client = createClient({ url: api.database.appUrl, poolSize: 5 });
  worker = await startWorker();
});
afterAll(async () => {
  expect(api.faults).toEqual([]);
  await worker.stop();
  await client.$disconnect();
  await api.stop();
});

const HEADER =
  'completed_on,task,jasc,standard_hours,model,registration,mechanic,hours,censored,clearance_mm,sight,posture,reach,swing_deg,held,locked_fasteners';
const row = (hours: string | number, task = 'hose') =>
  `2026-03-09,${task},7310,1.6,T-2,QQ-101,Ann,${hours},0,,,,,,,`;
const fileOf = (...rows: string[]) => [HEADER, ...rows, ''].join('\n');
const longFile = (rows: number) =>
  fileOf(
    ...Array.from({ length: rows }, (_, index) => row(1 + index / 1e5, `task ${index % 400}`)),
  );

interface Upload {
  id: string;
  fileName: string;
  uploadedBy: string;
  state: string;
  problem: string;
  goodRows: number;
  alreadyRows: number;
  refusedRows: number;
  refusals: number;
  firstRefusals: { line: number; column: string; value: string; problem: string; remedy: string }[];
  refusedFile: string | null;
  savedRows: number;
  standsStill: boolean;
  addedRows: number;
}
const FIELDS = `id fileName uploadedBy state problem goodRows alreadyRows refusedRows refusals
  firstRefusals { line column value problem remedy } refusedFile savedRows standsStill addedRows`;

async function send(
  shop: TestShop,
  content: string | Uint8Array<ArrayBuffer>,
  { name = 'jobs.csv', role = 'manager' as 'manager' | 'front_desk' | 'mechanic', own = true } = {},
) {
  const answer = await fetch(`${api.origin}/history/uploads?name=${encodeURIComponent(name)}`, {
    method: 'POST',
    headers: { cookie: await shop.cookie(role), ...(own && { 'x-fairlead': '1' }) },
    body: content,
  });
  const body = (await answer.json()) as { id?: string; error?: { code: string; message: string } };
  return { status: answer.status, ...body };
}

async function onDesk(shop: TestShop, role: 'manager' | 'front_desk' = 'manager') {
  const { data } = await shop.as<{ hindsight: { upload: Upload | null } }>(
    role,
    `{ hindsight { upload { ${FIELDS} } } }`,
  );
  return data?.hindsight.upload ?? null;
}

async function until(
  shop: TestShop,
  meets: (upload: Upload | null) => boolean,
): Promise<Upload | null> {
  const begun = Date.now();
  for (;;) {
    const upload = await onDesk(shop);
    if (meets(upload)) return upload;
    if (Date.now() - begun > 30_000)
      throw new Error(`still ${JSON.stringify(upload).slice(0, 300)}`);
    await new Promise((resolve) => setTimeout(resolve, 25));
  }
}
const settled = (shop: TestShop) =>
  until(shop, (upload) => upload !== null && !upload.state.startsWith('being_'));

const mutate = async (
  shop: TestShop,
  field: string,
  uploadId: string,
  role: 'manager' | 'front_desk' = 'manager',
) => {
  const selection =
    field === 'takeInHistory'
      ? `... on HistoryUpload { ${FIELDS} }`
      : '... on HistoryPutAway { takenIn added }';
  const { data, errors } = await shop.as<Record<string, Record<string, unknown>>>(
    role,
    `mutation($id: ID!) { ${field}(uploadId: $id) { ${selection} ... on Refusal { code message } } }`,
    { id: uploadId },
  );
  expect(errors).toBeUndefined();
  return data?.[field];
};
const counts = (shop: TestShop) =>
  shop.inside(async (tx) => [
    await tx.historyImport.count(),
    await tx.historyItem.count(),
    await tx.access.count(),
  ]);

describe('a file with three bad rows', () => {
  test('is read through, its bad rows told, the rest taken in, and the import listed by who did it', async () => {
    const shop = await makeShop(api);
    const text = fileOf(
      row(2),
      row('lots'),
      row(3),
      row(-1),
      row(2.5),
      '2026-02-30,,7310,1.6,T-2,QQ-101,Ann,1,0,,,,,,,',
    );
    const sent = await send(shop, text, { name: 'C:\\old\\jobs.csv' });
    expect(sent.status).toBe(201);
    const read = await settled(shop);
    expect(read).toMatchObject({
      id: sent.id,
      fileName: 'jobs.csv',
      uploadedBy: 'Test manager',
      state: 'read',
      goodRows: 3,
      alreadyRows: 0,
      refusedRows: 3,
      refusals: 4,
    });
    expect(read?.firstRefusals.map(({ line, column, value }) => [line, column, value])).toEqual([
      [3, 'hours', 'lots'],
      [5, 'hours', '-1'],
      [7, 'completed_on', '2026-02-30'],
      [7, 'task', ''],
    ]);
    expect(read?.firstRefusals[0]?.remedy).toContain('with a decimal point');
    expect(await counts(shop)).toEqual([0, 0, 0]);

    // The refused rows as the command line writes them.
    const refused = await fetch(`${api.origin}${read?.refusedFile}`, {
      headers: { cookie: await shop.cookie('front_desk') },
    });
    expect(refused.status).toBe(200);
    expect(refused.headers.get('content-disposition')).toContain('jobs.refused.csv');
    const lines = (await refused.text()).split('\n');
    expect(lines[0]).toBe(`${HEADER},refused_because`);
    expect(lines).toHaveLength(5);
    expect(lines[1]).toContain('line 3: hours ""lots"" is not a number');

    expect(await mutate(shop, 'takeInHistory', read?.id ?? '')).toMatchObject({
      state: 'being_taken_in',
    });
    expect(await settled(shop)).toMatchObject({
      state: 'taken_in',
      addedRows: 3,
      alreadyRows: 0,
      savedRows: 3,
    });
    expect(await counts(shop)).toEqual([1, 3, 0]);
    const { data } = await shop.as(
      'front_desk',
      '{ hindsight { imports(first: 5) { edges { node { fileName rows already refused importedBy { name } } } } } }',
    );
    expect(data).toEqual({
      hindsight: {
        imports: {
          edges: [
            {
              node: {
                fileName: 'jobs.csv',
                rows: 3,
                already: 0,
                refused: 3,
                importedBy: { name: 'Test manager' },
              },
            },
          ],
        },
      },
    });

    // Nothing of the file itself is kept, and the desk can be freed.
    const [kept] = await shop.inside((tx) => tx.historyUpload.findMany());
    expect(kept?.content).toBeNull();
    expect(await mutate(shop, 'putAwayHistory', read?.id ?? '')).toEqual({
      takenIn: true,
      added: 3,
    });
    expect(await onDesk(shop)).toBeNull();
    expect(await counts(shop)).toEqual([1, 3, 0]);
  });

  test('the same file again is known: it adds nothing, and says so before and after', async () => {
    const shop = await makeShop(api);
    for (const [already, added] of [
      [0, 2],
      [2, 0],
    ]) {
      await send(shop, fileOf(row(2), row(3)));
      const read = await settled(shop);
      expect(read).toMatchObject({ state: 'read', goodRows: 2, alreadyRows: already });
      await mutate(shop, 'takeInHistory', read?.id ?? '');
      expect(await settled(shop)).toMatchObject({
        state: 'taken_in',
        addedRows: added,
        alreadyRows: already,
      });
    }
    expect((await counts(shop)).slice(0, 2)).toEqual([1, 2]);
  });

  test('"Import nothing" leaves nothing', async () => {
    const shop = await makeShop(api);
    const { id = '' } = await send(shop, fileOf(row(2), row('x')));
    await settled(shop);
    expect(await mutate(shop, 'putAwayHistory', id)).toEqual({ takenIn: false, added: 0 });
    expect([await onDesk(shop), await counts(shop)]).toEqual([null, [0, 0, 0]]);
    expect(await mutate(shop, 'takeInHistory', id)).toMatchObject({ code: 'NOT_FOUND' });
    expect(await mutate(shop, 'putAwayHistory', id)).toMatchObject({ code: 'NOT_FOUND' });
  });
});

describe('a long file', () => {
  test('moves while it is taken in, and nothing of it counts before all of it does', async () => {
    const shop = await makeShop(api);
    await send(shop, longFile(20_000));
    const read = await settled(shop);
    expect(read?.goodRows).toBe(20_000);
    await mutate(shop, 'takeInHistory', read?.id ?? '');
    const seen = new Set<number>();
    await until(shop, (upload) => {
      if (upload?.state === 'being_taken_in') seen.add(upload.savedRows);
      return upload?.state === 'taken_in';
    });
    const between = [...seen].filter((saved) => saved > 0 && saved < 20_000);
    expect(between.length).toBeGreaterThanOrEqual(2);
    expect((await counts(shop)).slice(0, 2)).toEqual([1, 20_000]);
  });

  test('put away in the middle, nothing is left, and the desk is free at once', async () => {
    const shop = await makeShop(api);
    const { id = '' } = await send(shop, longFile(20_000));
    await settled(shop);
    await mutate(shop, 'takeInHistory', id);
    const middle = await until(shop, (upload) => (upload?.savedRows ?? 0) > 0);
    expect(middle?.state).toBe('being_taken_in');
    expect(await counts(shop)).toEqual([0, 0, 0]);
    expect(await mutate(shop, 'putAwayHistory', id)).toEqual({ takenIn: false, added: 0 });
    expect((await send(shop, fileOf(row(2)))).status).toBe(201);
    await settled(shop);
    // The next file's import waits for the first one's transaction, so its end is seen here.
    await mutate(shop, 'takeInHistory', (await onDesk(shop))?.id ?? '');
    expect(await settled(shop)).toMatchObject({ state: 'taken_in', addedRows: 1 });
    expect((await counts(shop)).slice(0, 2)).toEqual([1, 1]);
  });

  test('whoever was at it is gone: after a minute without a move it may be asked for again', async () => {
    const shop = await makeShop(api);
    const { id = '' } = await send(shop, fileOf(row(2)));
    await settled(shop);
    const long = new Date(Date.now() - 61_000);
    await shop.inside((tx) =>
      tx.historyUpload.updateMany({ data: { takingSince: long, movedAt: new Date() } }),
    );
    expect(await mutate(shop, 'takeInHistory', id)).toMatchObject({
      code: 'CONFLICT',
      message: 'jobs.csv is being taken in already.',
    });
    await shop.inside((tx) => tx.historyUpload.updateMany({ data: { movedAt: long } }));
    expect((await onDesk(shop))?.standsStill).toBe(true);
    expect(await mutate(shop, 'takeInHistory', id)).toMatchObject({
      state: 'being_taken_in',
      standsStill: false,
    });
    expect(await settled(shop)).toMatchObject({ state: 'taken_in', addedRows: 1 });
  });
});

describe('who may, and one at a time', () => {
  test('the manager imports; the front desk reads; the mechanic does neither; another shop sees nothing', async () => {
    const [shop, other] = [await makeShop(api), await makeShop(api)];
    for (const role of ['front_desk', 'mechanic'] as const)
      expect(await send(shop, fileOf(row(2)), { role })).toMatchObject({
        status: 403,
        error: { code: 'FORBIDDEN' },
      });
    expect(await send(shop, fileOf(row(2)), { own: false })).toMatchObject({ status: 403 });
    const { id = '' } = await send(shop, fileOf(row(2), row('x')));
    const read = await settled(shop);
    expect((await onDesk(shop, 'front_desk'))?.state).toBe('read');
    for (const field of ['takeInHistory', 'putAwayHistory'])
      expect(await mutate(shop, field, id, 'front_desk')).toMatchObject({ code: 'FORBIDDEN' });
    for (const field of ['takeInHistory', 'putAwayHistory'])
      expect(await mutate(other, field, id)).toMatchObject({ code: 'NOT_FOUND' });
    const refusedAs = async (who: TestShop, role: 'mechanic' | 'manager') =>
      (
        await fetch(`${api.origin}${read?.refusedFile}`, {
          headers: { cookie: await who.cookie(role) },
        })
      ).status;
    expect([await refusedAs(shop, 'mechanic'), await refusedAs(other, 'manager')]).toEqual([
      403, 404,
    ]);
    expect(
      (
        await fetch(`${api.origin}/history/uploads/nonsense/refused.csv`, {
          headers: { cookie: await shop.cookie('manager') },
        })
      ).status,
    ).toBe(400);
    const nobody = await fetch(`${api.origin}/history/uploads?name=a.csv`, {
      method: 'POST',
      headers: { 'x-fairlead': '1' },
      body: 'x',
    });
    expect(nobody.status).toBe(401);
  });

  test('a second file waits until the first is put away or in', async () => {
    const shop = await makeShop(api);
    await send(shop, fileOf(row(2)));
    const second = await send(shop, fileOf(row(3)), { name: 'more.csv' });
    expect(second).toMatchObject({ status: 409, error: { code: 'CONFLICT' } });
    expect(second.error?.message).toBe(
      'jobs.csv of Test manager lies on the desk already: import it or put it away, then choose more.csv again.',
    );
  });
});

describe('what is no history', () => {
  let shop: TestShop;
  beforeAll(async () => {
    shop = await makeShop(api);
  });
  const bytes = (hex: string) => new Uint8Array(Buffer.from(hex.replaceAll(' ', ''), 'hex'));
  test.each([
    ['an empty file', '', /^jobs\.csv is empty: needed are a header row/],
    ['a workbook renamed', bytes('504b0304 1400'), /is a spreadsheet’s own workbook/],
    ['an older workbook', bytes('d0cf11e0a1b11ae1'), /older spreadsheet/],
    ['a PDF', '%PDF-1.7 …', /is a PDF/],
    [
      'UTF-16',
      new Uint8Array(Buffer.from(`\uFEFF${fileOf(row(2))}`, 'utf16le')),
      /is not UTF-8: it is UTF-16/,
    ],
    [
      'Latin-1',
      new Uint8Array(Buffer.concat([Buffer.from(fileOf(row(2))), bytes('e90a')])),
      /is not UTF-8: line 3/,
    ],
    ['a picture', bytes('ffd8ffe000104a464946'), /is not UTF-8: line 1/],
  ])(
    '%s is refused at once, with a sentence, and nothing lies on the desk',
    async (_, content, sentence) => {
      const answer = await send(shop, content);
      expect(answer).toMatchObject({ status: 400, error: { code: 'BAD_INPUT' } });
      expect(answer.error?.message).toMatch(sentence);
      expect(await onDesk(shop)).toBeNull();
    },
  );

  test('more than 64 MB is refused by its size', async () => {
    const answer = await send(shop, new Uint8Array(64 * 1024 * 1024 + 1));
    expect(answer).toMatchObject({ status: 413, error: { code: 'TOO_LARGE' } });
    expect(answer.error?.message).toContain('64 MB');
  });

  test.each([
    ['', 400],
    ['x'.repeat(200), 400],
    ['/', 400],
  ])('a name %j is refused', async (name, status) => {
    expect((await send(shop, fileOf(row(2)), { name })).status).toBe(status);
  });

  test.each([
    ['semicolons', fileOf(row(2)).replaceAll(',', ';'), /keeps its columns apart by semicolons/],
    ['a header of its own', `date,job,time\n2026-01-02,hose,2\n`, /is not a known column/],
    ['a quotation left open', fileOf(row('"2')), /quotation mark/],
    ['a header alone', fileOf(), null],
  ])('%s is read, refused, and cannot be taken in', async (_, content, problem) => {
    const { id = '' } = await send(shop, content);
    const read = await settled(shop);
    expect(read).toMatchObject({
      state: 'refused',
      goodRows: 0,
      refusedRows: 0,
      refusedFile: null,
    });
    if (problem) expect(read?.firstRefusals[0]?.problem).toMatch(problem);
    expect(read?.problem).toMatch(
      problem ? /cannot be read as a history of jobs/ : /a header and no row under it/,
    );
    expect(await mutate(shop, 'takeInHistory', id)).toMatchObject({ code: 'CONFLICT' });
    expect(await counts(shop)).toEqual([0, 0, 0]);
    // Its successor takes its place without being put away.
    const next = await send(shop, fileOf(row(2)));
    expect(next.status).toBe(201);
    await mutate(shop, 'putAwayHistory', next.id ?? '');
  });

  test('a byte-order mark and CRLF are read as if they were not there', async () => {
    await send(shop, `\uFEFF${fileOf(row(2), row(3)).replaceAll('\n', '\r\n')}`);
    const read = await settled(shop);
    expect(read).toMatchObject({ state: 'read', goodRows: 2, refusedRows: 0 });
    await mutate(shop, 'putAwayHistory', read?.id ?? '');
  });

  test('of very many refusals the first 200 are told, and the file has all', async () => {
    await send(
      shop,
      fileOf(...Array.from({ length: 1500 }, (_, index) => row(`no ${index}`)), row(2)),
    );
    const read = await settled(shop);
    expect(read).toMatchObject({ goodRows: 1, refusedRows: 1500, refusals: 1500 });
    expect(read?.firstRefusals).toHaveLength(200);
    const refused = await fetch(`${api.origin}${read?.refusedFile}`, {
      headers: { cookie: await shop.cookie('manager') },
    });
    expect((await refused.text()).trim().split('\n')).toHaveLength(1501);
  });
});

import { randomUUID } from 'node:crypto';
import { globalId } from '@fairlead/api/ids';
import type { Role } from '@fairlead/database';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { startApi, type TestApi } from '../../support/api.ts';
import { makeShop, type TestShop } from '../../support/shop.ts';
import { rawConnection, stateOf } from '../guarantees/raw.ts';
import { offeredFinding, pageAt } from '../owner/owner-shop.ts';

let api: TestApi;
let shop: TestShop;
beforeAll(async () => {
  api = await startApi();
  shop = await makeShop(api);
});
afterAll(async () => {
  expect(api.faults).toEqual([]);
  await api.stop();
});

const arrow = { kind: 'arrow', x: 500, y: 400, toX: 100, toY: 900, words: '' };
const note = { kind: 'note', x: 20, y: 40, toX: 20, toY: 40, words: 'cracked here' };

const makePhoto = (of: TestShop, sha = 'a') =>
  of.inside((tx) =>
    tx.photo.create({
      data: {
        sha256: sha.repeat(64),
        mime: 'image/jpeg',
        width: 800,
        height: 600,
        bytes: 10,
      } as never,
    }),
  );
const mark = async (
  of: TestShop,
  photoId: string,
  marks: unknown[],
  role: Role = 'mechanic',
  over: Record<string, unknown> = {},
) => {
  const answer = await of.as<{ marked: { marks?: unknown[]; code?: string; message?: string } }>(
    role,
    `mutation($input: MarkPhotoInput!) { marked: markPhoto(input: $input) {
      ... on Refusal { code message } ... on Photo { marks { kind x y toX toY words } } } }`,
    { input: { photoId: globalId('Photo', photoId), marks, ...over } },
  );
  if (!answer.data) throw new Error(JSON.stringify(answer));
  return answer.data.marked;
};

it('puts marks over a photo in place of those before, and leaves the photo as it was', async () => {
  const photo = await makePhoto(shop);
  expect(await mark(shop, photo.id, [arrow, note])).toEqual({ marks: [arrow, note] });
  expect(await mark(shop, photo.id, [note], 'inspector')).toEqual({ marks: [note] });
  expect(await mark(shop, photo.id, [])).toEqual({ marks: [] });
  const kept = await shop.inside(async (tx) => [
    await tx.photo.findUniqueOrThrow({ where: { id: photo.id } }),
    await tx.photoMarking.count({ where: { photoId: photo.id } }),
  ]);
  expect(kept).toEqual([photo, 3]);
  const raw = await rawConnection(api.database.adminUrl);
  try {
    const change = raw.query(`update photo_marking set marks = '[]' where photo_id = $1`, [
      photo.id,
    ]);
    expect(await stateOf(change)).toBe('FL001');
  } finally {
    await raw.end();
  }
});

it('come late from a device once, and wipe nothing that somebody drew after them', async () => {
  const photo = await makePhoto(shop, 'e');
  const ago = (minutes: number) => new Date(Date.now() - minutes * 60_000).toISOString();
  const first = { at: ago(90), clientEventId: randomUUID() };
  const send = () => mark(shop, photo.id, [arrow], 'mechanic', first);
  expect(await Promise.all([send(), send()])).toEqual([{ marks: [arrow] }, { marks: [arrow] }]);
  const rows = () =>
    shop.inside((tx) => tx.photoMarking.findMany({ where: { photoId: photo.id } }));
  expect((await rows()).map(({ at, clientEventId }) => [at.toISOString(), clientEventId])).toEqual([
    [first.at, first.clientEventId],
  ]);
  await mark(shop, photo.id, [note], 'inspector', { at: ago(30) });
  // Sent again it is answered as at first, whatever happened since.
  expect(await send()).toEqual({ marks: [note] });
  const { code, message } = await mark(shop, photo.id, [arrow, arrow], 'mechanic', {
    ...{ at: ago(60), clientEventId: randomUUID() },
  });
  expect(code).toBe('CONFLICT');
  expect(message).toMatch(
    /^Test inspector marked this photo at .*, after you did at .*: theirs stay\. Look at them, then mark it again/,
  );
  expect(await rows()).toHaveLength(2);
  expect(await mark(shop, photo.id, [arrow, note], 'mechanic', { at: ago(5) })).toEqual({
    marks: [arrow, note],
  });
  expect(await mark(shop, photo.id, [], 'inspector', first)).toMatchObject({
    code: 'CONFLICT',
    message: expect.stringContaining('Something else has this clientEventId'),
  });
});

it('shows the owner the marks on the photos that the link reaches', async () => {
  const { finding, link } = await offeredFinding(shop);
  const [photo, elsewhere] = [await makePhoto(shop, 'b'), await makePhoto(shop, 'c')];
  await shop.inside((tx) =>
    tx.findingPhoto.create({ data: { findingId: finding.id, photoId: photo.id, position: 1 } }),
  );
  await mark(shop, photo.id, [arrow]);
  await mark(shop, elsewhere.id, [note]);
  const page = await pageAt(api, link);
  expect(page.order?.findings[0]?.photos).toMatchObject([{ marks: [arrow] }]);
  expect(JSON.stringify(page)).not.toContain('cracked here');
});

it('is refused with what is needed, and nothing is kept', async () => {
  const photo = await makePhoto(shop, 'd');
  const refused = async (marks: unknown[], role?: Role) => {
    const { code, message } = await mark(shop, photo.id, marks, role);
    return `${code}: ${message}`;
  };
  expect(await refused([{ ...arrow, x: 1001 }])).toContain(
    'BAD_INPUT: marks[0].x is 1001: needed is a whole number from 0 to 1000',
  );
  expect(await refused([{ ...note, words: ' ' }])).toContain('marks[0].words has 0 characters');
  expect(await refused([{ ...note, words: 'x'.repeat(61) }])).toContain('needed are 1 to 60');
  expect(await refused(Array.from({ length: 13 }, () => arrow))).toContain(
    '13 entries: at most 12',
  );
  expect(await refused([arrow], 'front_desk')).toContain('FORBIDDEN');
  const other = await makeShop(api);
  expect(await mark(other, photo.id, [arrow])).toMatchObject({ code: 'NOT_FOUND' });
  expect(await shop.inside((tx) => tx.photoMarking.count({ where: { photoId: photo.id } }))).toBe(
    0,
  );
});

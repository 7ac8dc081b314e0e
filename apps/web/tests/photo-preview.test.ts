import { afterEach, describe, expect, it, test, vi } from 'vitest';
import { type Decoded, MOST_PREVIEW_BYTES, makePreview } from '../features/work/make-preview.ts';
import type { Outcome } from '../features/work/outbox-core.ts';
import type { Pending, PendingPhoto } from '../features/work/pending.ts';
import { nextPhoto } from '../features/work/pending-list.ts';
import { previewIdOf } from '../features/work/send-photo.ts';
import { sendPreview } from '../features/work/send-preview.ts';
import { RequestProblem } from '../graphql/request.ts';
import { away, device, noted, onTaken, photo } from './outbox-device.ts';

const blob = (bytes: number) => new Blob([new Uint8Array(bytes)]);
const large = blob(MOST_PREVIEW_BYTES + 1);
const jpeg = blob(1000);

describe('what is made of a photo', () => {
  /** A browser whose JPEGs have so many bytes for each pixel at full quality. */
  function browser(bytesEach: number, width = 4000, height = 3000) {
    const asked: [number, number, number][] = [];
    let closed = 0;
    const decode = async (): Promise<Decoded> => ({
      width,
      height,
      drawn: async (...size) => {
        asked.push(size);
        return blob(Math.round(size[0] * size[1] * size[2] * bytesEach));
      },
      close: () => {
        closed += 1;
      },
    });
    return { asked, decode, closed: () => closed };
  }

  it('is 1600 pixels long at good quality where that is small enough', async () => {
    const { asked, decode, closed } = browser(0.1);
    expect((await makePreview(large, decode))?.size).toBe(153_600);
    expect(asked).toEqual([[1600, 1200, 0.8]]);
    expect(closed()).toBe(1);
  });
  it('loses quality first and size after that, until it is small enough; a tall one lies along its height', async () => {
    const { asked, decode } = browser(0.3, 3000, 4000);
    expect((await makePreview(large, decode))?.size).toBeLessThanOrEqual(MOST_PREVIEW_BYTES);
    expect(asked).toEqual([
      [1200, 1600, 0.8],
      [1200, 1600, 0.65],
      [1200, 1600, 0.5],
      [960, 1280, 0.5],
    ]);
  });
  it('is never blown up, and is nothing where nothing is small enough', async () => {
    const tiny = browser(0.1, 300, 200);
    await makePreview(large, tiny.decode);
    expect(tiny.asked).toEqual([[300, 200, 0.8]]);
    const noisy = browser(4);
    expect(await makePreview(large, noisy.decode)).toBeNull();
    expect(noisy.closed()).toBe(1);
  });
  it('is nothing for a photo that is small itself, and for one that this browser cannot read', async () => {
    const decode = vi.fn(() => Promise.reject(new Error('InvalidStateError')));
    expect(await makePreview(blob(MOST_PREVIEW_BYTES), decode)).toBeNull();
    expect(decode).not.toHaveBeenCalled();
    expect(await makePreview(large, decode)).toBeNull();
    expect(decode).toHaveBeenCalledOnce();
  });
});

describe('the preview on its way', () => {
  afterEach(() => vi.unstubAllGlobals());
  let ids = 0;
  const newId = () => `${(ids += 1)}`.padStart(36, '0');
  const calls: { method: string; address: string; metadata: string }[] = [];
  function shop(answer: (method: string) => Response | Error) {
    calls.length = 0;
    vi.stubGlobal('fetch', async (address: string, { method = '', headers }: RequestInit) => {
      const metadata = new Headers(headers).get('upload-metadata') ?? '';
      calls.push({ method, address, metadata });
      const given = answer(method);
      if (given instanceof Error) throw given;
      return given;
    });
  }
  const takes = (method: string) =>
    new Response(null, {
      status: method === 'POST' ? 201 : 204,
      headers: method === 'POST' ? {} : { 'upload-offset': '1000', 'fairlead-photo': 'UGhvdG8' },
    });
  const send = (id: string, join: (photoId: string) => Promise<unknown> = async () => ({})) =>
    sendPreview({ id, photo: large }, join, async () => jpeg);

  it('is an upload of its own that names its photo, and joins the finding', async () => {
    shop(takes);
    const [id, join] = [newId(), vi.fn(async () => ({}))];
    expect(await send(id, join)).toBe('sent');
    expect(join.mock.calls).toEqual([['UGhvdG8']]);
    const own = previewIdOf(id);
    expect(own).toMatch(/^[0-9a-f-]{36}$/);
    expect(own).not.toBe(id);
    expect(previewIdOf(own)).toBe(id);
    expect(calls).toEqual([
      {
        method: 'POST',
        address: '/uploads',
        metadata: `id ${btoa(own)},previewOf ${btoa(id)}`,
      },
      { method: 'PATCH', address: `/uploads/${own}`, metadata: '' },
    ]);
  });
  it('asks the shop nothing where none can be made', async () => {
    shop(takes);
    const none = sendPreview({ id: newId(), photo: large }, vi.fn(), async () => null);
    expect(await none).toBe('none');
    expect(calls).toEqual([]);
  });
  it('that is refused, or met by a fault, lets the photo go', async () => {
    for (const [status, code] of [
      [400, 'BAD_INPUT'],
      [413, 'TOO_LARGE'],
      [422, 'AGAINST_RULE'],
      [500, 'INTERNAL'],
      [503, 'UNAVAILABLE'],
    ] as const) {
      shop(() => Response.json({ error: { code, message: 'No.' } }, { status }));
      expect(await send(newId()), code).toBe('none');
    }
  });
  it('is tried again over a line that breaks, three times in all; and never without a sign-in', async () => {
    shop(() => new TypeError('Failed to fetch'));
    const id = newId();
    await expect(send(id)).rejects.toMatchObject({ code: 'NETWORK' });
    await expect(send(id)).rejects.toMatchObject({ code: 'NETWORK' });
    expect(await send(id)).toBe('none');
    shop(() =>
      Response.json({ error: { code: 'SIGN_IN_NEEDED', message: 'In.' } }, { status: 401 }),
    );
    await expect(send(newId())).rejects.toMatchObject({ kind: 'signIn' });
    shop(takes);
    const join = () => Promise.reject(new RequestProblem('signIn', 'SIGN_IN_NEEDED', 'In.'));
    await expect(send(newId(), join)).rejects.toMatchObject({ kind: 'signIn' });
  });
});

describe('the order in which photos go', () => {
  /** A shop that is sent photos in two steps: the preview, then all of the photo at once. */
  function twoSteps(preview: (entry: PendingPhoto) => Outcome) {
    const got: string[] = [];
    const send = async (entries: readonly Pending[]): Promise<Outcome[]> =>
      entries.map((entry): Outcome => {
        if (entry.kind !== 'photo') return {};
        got.push(`${entry.preview === undefined ? 'preview' : 'photo'} ${entry.id}`);
        return entry.preview === undefined ? preview(entry) : {};
      });
    return { got, send };
  }

  test('the previews of all that wait go before any photo', async () => {
    const { got, send } = twoSteps(() => ({ preview: 'sent' }));
    const mine = device();
    const page = mine.page(send);
    const finding = noted({ kind: 'finding' } as never);
    const [a, b, c] = [photo(finding.id), photo(finding.id), photo(finding.id)];
    await page.add(finding, a, b, c);
    page.open({ personId: 'p', onTaken });
    await vi.waitFor(() => expect(page.now()).toEqual([]));
    const each = (what: string) => [a, b, c].map(({ id }) => `${what} ${id}`);
    expect(got).toEqual([...each('preview'), ...each('photo')]);
    expect(mine.rows.size).toBe(0);
  });

  test('a photo goes before the page has read what followed from its finding', async () => {
    const { got, send } = twoSteps(() => ({ preview: 'sent' }));
    const page = device().page(send);
    let read = () => {};
    const reading = new Promise<void>((resolve) => (read = resolve));
    page.open({ personId: 'p', onTaken: () => reading });
    const finding = noted({ kind: 'finding' } as never);
    const picture = photo(finding.id);
    await page.add(finding, picture);
    await vi.waitFor(() => expect(got).toEqual([`preview ${picture.id}`, `photo ${picture.id}`]));
    expect(page.now()).toHaveLength(2);
    read();
    await vi.waitFor(() => expect(page.now()).toEqual([]));
  });

  test('one that is taken while a photo goes in pieces is seen before the rest of that', async () => {
    const finding = 'through';
    const [first, second] = [photo(finding), photo(finding)] as [PendingPhoto, PendingPhoto];
    const begun: Pending = { ...first, preview: 'sent', sent: 512 * 1024 };
    expect(nextPhoto([begun, second], 'p')).toEqual([second]);
    const none: Pending = { ...second, preview: 'none' };
    expect(nextPhoto([begun, none], 'p')).toEqual([begun]);
  });

  test('a photo without a preview goes as ever, and what is kept of it stays the photo itself', async () => {
    const { got, send } = twoSteps(() => ({ preview: 'none' }));
    const mine = device();
    let up = false;
    const page = mine.page((entries) => (up ? send(entries) : Promise.reject(away())));
    page.open({ personId: 'p', onTaken });
    const picture = photo('through');
    await page.add(picture);
    await vi.waitFor(() => expect(page.failing()).toBe(true));
    expect(mine.rows.get(picture.id)).toMatchObject({ kind: 'photo' });
    expect(mine.rows.get(picture.id)).not.toHaveProperty('preview');
    up = true;
    page.sendNow();
    await vi.waitFor(() => expect(page.now()).toEqual([]));
    expect(got).toEqual([`preview ${picture.id}`, `photo ${picture.id}`]);
  });
});

import { describe, expect, test, vi } from 'vitest';
import type { Pending } from '../features/work/pending.ts';
import { RequestProblem } from '../graphql/request.ts';
import { away, device, noted, onTaken, photo, quiet, shop } from './outbox-device.ts';

describe('the outbox', () => {
  test('goes on with a photo whose lane failed while it had nothing to send', async () => {
    const { send, got } = shop();
    let reads = 0;
    const page = device().page(async (entries) => {
      // The photos' lane has looked and found nothing by the time the finding is through.
      await quiet();
      return send(entries);
    });
    page.open({
      personId: 'p',
      onTaken: async () => {
        reads += 1;
        if (reads === 1) throw away();
      },
    });
    const finding = noted({ kind: 'finding' } as never);
    await page.add(finding);
    const picture = photo(finding.id);
    await page.add(picture);
    await vi.waitFor(() => expect(got).toEqual([finding.id, picture.id]));
    expect(page.failing()).toBe(false);
  });
  test('an act goes at once while the page still reads what followed from the one before', async () => {
    const { send, got } = shop();
    const page = device().page(send);
    let read = () => {};
    const reading = new Promise<void>((resolve) => (read = resolve));
    page.open({ personId: 'p', onTaken: () => reading });
    const acts = [noted(), noted(), noted()];
    for (const act of acts) {
      await page.add(act);
      await vi.waitFor(() => expect(got).toContain(act.id));
    }
    // Until it is read, what was done is still laid over what the page knows.
    expect(page.now()).toHaveLength(3);
    read();
    await vi.waitFor(() => expect(page.now()).toEqual([]));
    expect(page.failing()).toBe(false);
  });
  test('sends in the order in which things were noted, also after the device’s clock was set back', async () => {
    const { got, send } = shop();
    const mine = device();
    const first = mine.page(() => Promise.reject(away()));
    first.open({ personId: 'p', onTaken });
    const entries = [noted({ madeAt: 9000 }), noted({ madeAt: 10 }), noted({ madeAt: 20 })];
    for (const entry of entries) await first.add(entry);
    await quiet();
    expect(first.failing()).toBe(true);
    expect(mine.rows.size).toBe(3);
    // The page is closed and opened again, now with a network.
    const second = mine.page(send);
    second.open({ personId: 'p', onTaken });
    await vi.waitFor(() => expect(got).toHaveLength(3));
    await vi.waitFor(() => expect(second.now()).toEqual([]));
    expect(got).toEqual(entries.map(({ id }) => id));
    expect(mine.rows.size).toBe(0);
  });

  test('what is noted before the store was read comes after what lies in it', async () => {
    const { got, send } = shop();
    const mine = device();
    const old = noted({ seq: 5000 });
    mine.rows.set(old.id, old);
    const page = mine.page(send);
    page.open({ personId: 'p', onTaken });
    const young = noted({ madeAt: 1 });
    await page.add(young);
    await vi.waitFor(() => expect(page.now()).toEqual([]));
    expect(got).toEqual([old.id, young.id]);
  });

  test('shows at once, keeps what was known of the shop’s clock, and sends clock events together', async () => {
    const sizes: number[] = [];
    const mine = device();
    let up = false;
    const page = mine.page(
      async (entries) => {
        if (!up) throw away();
        sizes.push(entries.length);
        return entries.map(() => ({}));
      },
      () => ({ offsetMs: 7, heard: 9 }),
    );
    page.open({ personId: 'p', onTaken });
    void page.add(noted());
    expect(page.now()).toHaveLength(1);
    await page.add(noted());
    await page.add(noted({ kind: 'cautions', itemId: 'a' } as never));
    await page.add(noted());
    expect([...mine.rows.values()].map(({ clock }) => clock)).toEqual(
      Array.from({ length: 4 }, () => ({ offsetMs: 7, heard: 9 })),
    );
    up = true;
    await vi.waitFor(() => expect(page.now()).toEqual([]));
    expect(sizes).toEqual([2, 1, 1]);
  });

  test('a refusal stays with its sentence and holds nothing up; tried again it may go', async () => {
    let no = true;
    const mine = device();
    const { got, send } = shop(({ id }) =>
      no && id === bad.id ? { refused: 'No such item.' } : {},
    );
    const bad = noted();
    const page = mine.page(send);
    page.open({ personId: 'p', onTaken });
    await page.add(bad);
    await page.add(noted());
    await vi.waitFor(() => expect(page.now()).toHaveLength(1));
    expect(page.now()[0]).toMatchObject({ id: bad.id, refused: 'No such item.' });
    expect(mine.rows.get(bad.id)).toMatchObject({ refused: 'No such item.' });
    no = false;
    page.tryAgain(page.now()[0]);
    await vi.waitFor(() => expect(page.now()).toEqual([]));
    expect(got.filter((id) => id === bad.id)).toHaveLength(2);
  });

  test('what was taken with something to know stays until it is understood, over a reload, and is not sent again', async () => {
    const mine = device();
    const { got, send } = shop(() => ({ told: 'Somebody closed it.' }));
    const page = mine.page(send);
    page.open({ personId: 'p', onTaken });
    await page.add(noted());
    await vi.waitFor(() => expect(page.now()[0]).toMatchObject({ told: 'Somebody closed it.' }));
    await vi.waitFor(() => expect(page.now()[0]?.taken).toBeUndefined());
    const reloaded = mine.page(send);
    reloaded.open({ personId: 'p', onTaken });
    await quiet();
    expect(reloaded.now()).toHaveLength(1);
    expect(got).toHaveLength(1);
    for (const entry of reloaded.now()) reloaded.discard(entry);
    await quiet();
    expect(mine.rows.size).toBe(0);
  });

  test('what was taken leaves the list only when the page has read what followed', async () => {
    const mine = device();
    const { got, send } = shop();
    let readable = false;
    const page = mine.page(send);
    page.open({
      personId: 'p',
      onTaken: () => (readable ? Promise.resolve() : Promise.reject(away())),
    });
    await page.add(noted());
    await quiet();
    expect(page.now()).toMatchObject([{ taken: true }]);
    expect(mine.rows.size).toBe(0);
    readable = true;
    await vi.waitFor(() => expect(page.now()).toEqual([]));
    expect(got).toHaveLength(1);
  });

  test('two pages of one device see each other’s things, send each once, and in order', async () => {
    const mine = device();
    const { got, send } = shop();
    let up = false;
    const slowly = async (entries: readonly Pending[]) => {
      await new Promise((resolve) => setTimeout(resolve, 3));
      if (!up) throw away();
      return send(entries);
    };
    const [one, other] = [mine.page(slowly), mine.page(slowly)];
    for (const page of [one, other]) page.open({ personId: 'p', onTaken });
    const entries = Array.from({ length: 6 }, () =>
      noted({ kind: 'cautions', itemId: 'a' } as never),
    );
    for (const [index, entry] of entries.entries())
      await (index % 2 === 0 ? one : other).add(entry);
    await vi.waitFor(() =>
      expect(other.now().map(({ id }) => id)).toEqual(entries.map(({ id }) => id)),
    );
    up = true;
    await vi.waitFor(() => expect([...one.now(), ...other.now()]).toEqual([]));
    expect(got).toEqual(entries.map(({ id }) => id));
  });

  test('a device that keeps nothing more says so, and still sends while the page lives', async () => {
    const mine = device();
    mine.fillUp(() => true);
    let up = false;
    const { got, send } = shop();
    const page = mine.page((entries) => (up ? send(entries) : Promise.reject(away())));
    page.open({ personId: 'p', onTaken });
    await page.add(noted());
    expect(page.unkept()).toBe(true);
    await quiet();
    expect(page.now()).toHaveLength(1);
    up = true;
    await vi.waitFor(() => expect(page.now()).toEqual([]));
    expect(got).toHaveLength(1);
    expect(page.unkept()).toBe(false);
  });

  test('a finding is kept where there is no room for its photos', async () => {
    const mine = device();
    mine.fillUp((given) => given.some(({ kind }) => kind === 'photo'));
    const page = mine.page(() => Promise.reject(away()));
    page.open({ personId: 'p', onTaken });
    const finding = noted({ kind: 'finding' } as never);
    await page.add(finding, photo(finding.id));
    expect([...mine.rows.keys()]).toEqual([finding.id]);
    expect(page.unkept()).toBe(true);
    expect(page.now()).toHaveLength(2);
  });

  test('a photo waits for its finding, and holds no clock up', async () => {
    const mine = device();
    const { got, send } = shop();
    let through = () => {};
    const page = mine.page(async (entries) => {
      if (entries[0]?.kind === 'photo') await new Promise<void>((resolve) => (through = resolve));
      return send(entries);
    });
    page.open({ personId: 'p', onTaken });
    const finding = noted({ kind: 'finding' } as never);
    const picture = photo(finding.id);
    await page.add(finding, picture);
    await quiet();
    const clock = noted();
    await page.add(clock);
    await quiet();
    expect(got).toEqual([finding.id, clock.id]);
    through();
    await vi.waitFor(() => expect(page.now()).toEqual([]));
    expect(got.at(-1)).toBe(picture.id);
  });

  test('what is drawn over a photo that waits goes with it, also where it was on its way by then', async () => {
    const mine = device();
    const sent: (string | undefined)[] = [];
    const ways: (() => void)[] = [];
    const page = mine.page(async ([entry]) => {
      if (entry?.kind !== 'photo') return [{}];
      sent.push(entry.marked?.id);
      await new Promise<void>((resolve) => ways.push(resolve));
      return [{}];
    });
    const finding = noted({ kind: 'finding' } as never);
    const picture = photo(finding.id);
    await page.add(finding, picture);
    const ring = { kind: 'ring' as const, x: 1, y: 2, toX: 3, toY: 4, words: '' };
    expect(await page.mark(picture.id, [ring], { id: 'first', madeAt: 5 })).toBe(true);
    expect(mine.rows.get(picture.id)).toMatchObject({ marked: { id: 'first', marks: [ring] } });
    page.open({ personId: 'p', onTaken });
    await vi.waitFor(() => expect(sent).toEqual(['first']));
    expect(await page.mark(picture.id, [ring, ring], { id: 'second', madeAt: 6 })).toBe(true);
    ways[0]?.();
    await vi.waitFor(() => expect(sent).toEqual(['first', 'second']));
    ways[1]?.();
    await vi.waitFor(() => expect(page.now()).toEqual([]));
    expect(mine.rows.size).toBe(0);
    expect(await page.mark(picture.id, [], { id: 'third', madeAt: 7 })).toBe(false);
  });

  test('what somebody else left on the device waits for them', async () => {
    const mine = device();
    const { got, send } = shop();
    const theirs = noted({ personId: 'q' });
    mine.rows.set(theirs.id, theirs);
    const page = mine.page(send);
    page.open({ personId: 'p', onTaken });
    await page.add(noted());
    await vi.waitFor(() => expect(page.now()).toHaveLength(1));
    expect(page.now()[0]?.id).toBe(theirs.id);
    expect(got).not.toContain(theirs.id);
  });

  test('somebody has to sign in first: nothing is lost, and it is not asked again and again', async () => {
    const mine = device();
    const send = vi.fn(() =>
      Promise.reject(new RequestProblem('signIn', 'SIGN_IN_NEEDED', 'Sign in first.')),
    );
    const page = mine.page(send);
    page.open({ personId: 'p', onTaken });
    await page.add(noted());
    await quiet();
    expect(page.now()).toHaveLength(1);
    expect(page.trouble()).toBe('Sign in first.');
    expect(send).toHaveBeenCalledTimes(1);
    expect(await page.settle()).toBe(false);
  });
});

import { expect, test } from 'vitest';
import type { Fact } from '../features/safety/facts.ts';
import type { UnsentFact } from '../features/safety/kept-facts.ts';
import { learnedNow } from '../features/work/learned-now.ts';
import { marksNow } from '../features/work/marks-now.ts';

const at = '2031-05-04T16:10:00Z';
const noted = (id: string, fact: Fact): UnsentFact =>
  ({ ...fact, id, at, words: '', name: 'Ruan Teasel' }) as UnsentFact;
const note = (id: string, clientEventId: string) => ({
  ...{ id, clientEventId, words: 'Loosen the baffle first', at, photos: [], stillTrue: true },
  ...{ judgedAt: null, judgedBy: null, model: null, by: { id: 'q', name: 'Marta Quillby' } },
});
const photo = (id: string) => ({
  ...{ id, words: '', width: 4, height: 3, marks: [] },
  ...{ url: '', largeUrl: '', middleUrl: '', thumbUrl: '' },
});
const item = (learned: ReturnType<typeof note>[]) => ({
  id: 'i',
  learned,
  findings: [{ id: 'f', number: 1, title: '', photos: [photo('p'), photo('q')], photoPairs: [] }],
});
const learn = (id: string, over = {}) =>
  noted(id, {
    does: 'learn',
    input: { itemId: 'i', words: 'Warm the seal', photoIds: ['q'], ...over },
  });

test('what was learned on this device stands first, with its photos, on this model or on every one', () => {
  const facts = [learn('1'), learn('2', { everyModel: true, photoIds: [] })];
  const now = learnedNow(item([note('a', 'x')]), facts);
  expect(now).toMatchObject([
    { id: '2', model: null, photos: [], unsent: true },
    { id: '1', model: { name: '' }, photos: [{ id: 'q' }], by: { name: 'Ruan Teasel' }, at },
    { id: 'a' },
  ]);
  expect(now[2]).not.toHaveProperty('unsent');
});

test('what the shop has by now stands once, and what was learned at another item not at all', () => {
  expect(learnedNow(item([note('a', '1')]), [learn('1')])).toEqual([note('a', '1')]);
  expect(learnedNow(item([]), [learn('1', { itemId: 'other' })])).toEqual([]);
});

test('the last word on this device says whether a note holds', () => {
  const judge = (id: string, stillTrue: boolean) =>
    noted(id, { does: 'judge', input: { noteId: 'a', stillTrue } });
  const after = (...facts: UnsentFact[]) => learnedNow(item([note('a', 'x')]), facts)[0];
  expect(after(judge('1', false))).toMatchObject({
    ...{ stillTrue: false, judgedAt: at, judgedBy: { name: 'Ruan Teasel' }, unsent: true },
  });
  expect(after(judge('1', false), judge('2', true))?.stillTrue).toBe(true);
});

test('the last marks of this device lie over a photo, none included, and over no other', () => {
  const ring = { kind: 'ring', x: 1, y: 2, toX: 3, toY: 4, words: '' } as const;
  const mark = (id: string, marks: (typeof ring)[]) =>
    noted(id, { does: 'mark', input: { photoId: 'p', marks } });
  const marks = (...facts: UnsentFact[]) =>
    marksNow([photo('p'), { ...photo('q'), marks: [ring] }], facts).map((each) => [
      each.marks.length,
      each.unsent,
    ]);
  expect(marks()).toEqual([
    [0, undefined],
    [1, undefined],
  ]);
  expect(marks(mark('1', [ring, ring]))[0]).toEqual([2, true]);
  expect(marks(mark('1', [ring]), mark('2', []))).toEqual([
    [0, true],
    [1, undefined],
  ]);
});

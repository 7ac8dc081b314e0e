import { expect, test } from 'vitest';
import { unfinishedWords } from '../features/safety/unfinished.ts';

const line = (number: number, initials: string | null) => ({
  number,
  words: `Words of ${number}`,
  initials,
  by: initials,
  at: null,
});
const stopped = (loose: string) => ({
  id: 'left',
  done: '',
  notDone: 'The cotter pins',
  loose,
  at: '2031-05-04T16:10:00Z',
  by: { id: 'ruan', name: 'Ruan Teasel' },
});

test('An item with nothing left can be finished', () => {
  expect(unfinishedWords({ stoppedHere: [], checklist: [line(1, 'RT')] })).toBeNull();
  expect(unfinishedWords({ stoppedHere: [], checklist: [] })).toBeNull();
});

test('Words left for the next one come before lines without initials', () => {
  const all = { stoppedHere: [stopped('nut 3')], checklist: [line(1, null)] };
  expect(unfinishedWords(all)).toMatch(
    /^Ruan Teasel stopped here \(loose: nut 3\) and nobody has taken it over/,
  );
  expect(unfinishedWords({ ...all, stoppedHere: [stopped('')] })).toMatch(
    /^Ruan Teasel stopped here and nobody/,
  );
});

test('The first line without initials is named, the others by number', () => {
  const of = (...initials: (string | null)[]) =>
    unfinishedWords({
      stoppedHere: [],
      checklist: initials.map((each, index) => line(index + 1, each)),
    });
  expect(of('RT', null)).toMatch(/^line 2 of its list, “Words of 2”, has no initials\. /);
  expect(of(null, 'RT', null)).toMatch(/no initials; neither has line 3\. /);
  expect(of('RT', null, null, null)).toMatch(/no initials; neither have lines 3 and 4\. /);
});

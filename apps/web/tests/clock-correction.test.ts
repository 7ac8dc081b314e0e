import { expect, test } from 'vitest';
import { correctionOf } from '../features/work/clock-correction.ts';

const stretch = Object.freeze({
  startedAt: '2026-03-02T07:00:10.000Z',
  endedAt: '2026-03-02T11:00:40.000Z',
  began: { id: 'start' },
  ended: { id: 'stop' },
});
const zone = 'Europe/Berlin';

test('only the end whose minute was changed is corrected, in the shop’s zone', () => {
  expect(correctionOf(stretch, '2026-03-02T08:00', '2026-03-02T12:00', zone)).toEqual({
    ends: [],
    seconds: 4 * 3600 + 30,
  });
  expect(correctionOf(stretch, '2026-03-02T08:00', '2026-03-02T09:30', zone)).toEqual({
    ends: [{ eventId: 'stop', at: '2026-03-02T08:30:00.000Z' }],
    seconds: 90 * 60 - 10,
  });
  expect(correctionOf(stretch, '2026-03-02T07:45', '2026-03-02T09:30', zone)).toEqual({
    ends: [
      { eventId: 'start', at: '2026-03-02T06:45:00.000Z' },
      { eventId: 'stop', at: '2026-03-02T08:30:00.000Z' },
    ],
    seconds: 105 * 60,
  });
});

test('a stretch that runs has one end to correct', () => {
  const runs = { ...stretch, endedAt: null, ended: null };
  expect(correctionOf(runs, '2026-03-02T07:30', '', zone)).toEqual({
    ends: [{ eventId: 'start', at: '2026-03-02T06:30:00.000Z' }],
    seconds: null,
  });
});

test('an end before the beginning, and a field that is empty, are said', () => {
  expect(correctionOf(stretch, '2026-03-02T12:01', '2026-03-02T12:00', zone)).toMatchObject({
    wrong: expect.stringContaining('end before it begins'),
  });
  expect(correctionOf(stretch, '', '2026-03-02T12:00', zone)).toMatchObject({
    wrong: expect.stringContaining('are needed'),
  });
});

test('another supervision is a correction of the beginning, which keeps its time', () => {
  const [from, to] = ['2026-03-02T08:00', '2026-03-02T12:00'];
  const ends = (supervisedBy: { id: string } | null, chosen?: string | null) => {
    const correction = correctionOf({ ...stretch, supervisedBy }, from, to, zone, chosen);
    return 'ends' in correction ? correction.ends : null;
  };
  const began = { eventId: 'start', at: stretch.startedAt };
  expect(ends(null, 'ruan')).toEqual([{ ...began, supervision: { byId: 'ruan' } }]);
  expect(ends({ id: 'ruan' }, null)).toEqual([{ ...began, supervision: { byId: null } }]);
  expect(ends({ id: 'ruan' }, 'ruan')).toEqual([]);
  expect(ends({ id: 'ruan' })).toEqual([]);
});

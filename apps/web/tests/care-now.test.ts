import { expect, test } from 'vitest';
import { compressionsNoted, torquesNoted, withNoted } from '../features/safety/care-now.ts';
import type { Fact, FactInputs } from '../features/safety/facts.ts';
import type { TorqueChoices } from '../features/safety/item-documents.ts';
import type { UnsentFact } from '../features/safety/kept-facts.ts';
import { settingOf } from '../features/safety/torque-reckoned.ts';

const at = '2031-05-04T16:10:00Z';
const noted = (id: string, fact: Fact): UnsentFact =>
  ({ ...fact, id, at, words: '', name: 'Ruan Teasel' }) as UnsentFact;
const wrench: TorqueChoices['tools'][number] = {
  kind: 'torque_wrench',
  ...{ id: 't', name: 'Torque wrench', number: 'TW-3' },
  ...{ goodUntil: '2031-04-30', lapsed: true },
};

test('a torque noted on this device stands with its setting and its wrench, lapsed or not, before the shop has it', () => {
  const input: FactInputs['torque'] = {
    unit: 'in_lb',
    source: 'maker',
    ...{ itemId: 'i', fastener: 'Bell-crank bolt', torque: '135' },
    ...{ lever: '10', extension: '1.5', toolId: 't', reason: 'The other one was out.' },
  };
  const facts = [noted('1', { does: 'torque', input })];
  expect(torquesNoted('i', facts, [wrench])).toMatchObject([
    {
      ...{ id: '1', clientEventId: '1', fastener: 'Bell-crank bolt', setting: '117.39', drag: '0' },
      ...{ tool: { number: 'TW-3' }, lapsed: true, goodUntil: '2031-04-30', unsent: true },
      ...{ by: { name: 'Ruan Teasel' }, at, reason: 'The other one was out.' },
    },
  ]);
  expect(torquesNoted('other', facts, [wrench])).toEqual([]);
});

test('of a compression check each cylinder says whether it lost more than a quarter', () => {
  // AC 43.13-1B (9/8/98), 8-14: a loss in excess of 25 % is cause to suspect a cylinder.
  const input = { itemId: 'i', supply: 80, held: [78, 60, 59] };
  const [check] = compressionsNoted('i', [noted('1', { does: 'compression', input })]);
  expect(check?.cylinders).toEqual([
    { number: 1, held: 78, inExcess: false },
    { number: 2, held: 60, inExcess: false },
    { number: 3, held: 59, inExcess: true },
  ]);
  expect(check).toMatchObject({ supply: 80, unsent: true, by: { name: 'Ruan Teasel' } });
});

test('what the shop has by now stands once', () => {
  const row = (id: string, clientEventId: string) => ({ id, clientEventId });
  expect(withNoted([row('a', '1')], [row('1', '1'), row('2', '2')])).toEqual([
    row('a', '1'),
    row('2', '2'),
  ]);
});

test.each([
  // AC 43.13-1B (9/8/98), 7-40 h and figure 7-2: 135 · 10 / 11.5.
  [{ torque: '135', drag: null, lever: '10', extension: '1.5' }, '117.39'],
  [{ torque: '135', drag: null, lever: '10', extension: '-1.5' }, '158.82'],
  [{ torque: '120', drag: '15.5', lever: null, extension: null }, '135.5'],
  [{ torque: '135', drag: null, lever: '10', extension: '-10' }, null],
  [{ torque: '0', drag: '3', lever: null, extension: null }, null],
])('the wrench is set without the shop: case %#', (asked, setting) => {
  expect(settingOf(asked)).toBe(setting);
});

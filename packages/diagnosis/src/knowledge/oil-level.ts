import type { Cause, Question, Symptom } from '../symptom.ts';
import { somethingElse } from './something-else.ts';

const questions: readonly Question[] = [
  {
    id: 'looks',
    asks: 'What is the oil like?',
    kind: 'look',
    minutes: 0.5,
    answers: [
      { id: 'thin', words: 'Thin, smells of fuel', says: 'The oil is thin and smells of fuel' },
      { id: 'milky', words: 'Milky', says: 'The oil is milky' },
      { id: 'usual', words: 'As always', says: 'The oil looks and smells as always' },
    ],
    usual: { thin: 34, milky: 16, usual: 50 },
  },
  {
    id: 'filled',
    asks: 'Was oil put in lately?',
    kind: 'look',
    minutes: 0.5,
    answers: [
      { id: 'no', words: 'No', says: 'No oil was put in lately' },
      { id: 'yes', words: 'Yes', says: 'Oil was put in lately' },
    ],
    usual: { no: 60, yes: 40 },
  },
  {
    id: 'check_drain',
    asks: "Is the fuel pump's drain open?",
    kind: 'check',
    how: 'Look for a cap, a kink or mud at the end of the drain tube, and blow through it gently.',
    minutes: 4,
    hazards: ['fuel', 'hot'],
    answers: [
      { id: 'open', words: 'Open', says: "The fuel pump's drain is open" },
      {
        id: 'blocked',
        words: 'Capped or blocked',
        says: "The fuel pump's drain is capped or blocked",
      },
    ],
    usual: { open: 96, blocked: 4 },
  },
  {
    id: 'check_boost_level',
    asks: 'Boost pump on ten minutes, read the dipstick again',
    kind: 'check',
    how: 'Mixture at cut-off, boost pump on for ten minutes with the engine at rest, read the dipstick before and after.',
    minutes: 6,
    hazards: ['fuel', 'electric'],
    answers: [
      {
        id: 'same',
        words: 'The same',
        says: 'With the boost pump on the oil level stays the same',
      },
      { id: 'rises', words: 'It rises', says: 'With the boost pump on the oil level rises' },
    ],
    usual: { same: 97, rises: 3 },
  },
];

const causes: readonly Cause[] = [
  {
    id: 'pump_into_case',
    name: "The fuel pump's diaphragm or seal leaks fuel into the crankcase, or its drain is capped",
    kind: 'fault',
    weight: 34,
    why: 'Fuel that cannot leave by the drain goes into the oil, which rises, thins and smells of fuel.',
    source: 'owners_lists',
    remedy: 'Replace the pump, see that its drain is open, change the oil before it runs.',
    work: {
      title: 'Replace engine-driven fuel pump, open its drain, change the oil',
      jasc: '7314',
    },
    rows: [
      ['looks', { thin: 93, milky: 1 }, 'owners_lists'],
      ['filled', { no: 78, yes: 22 }, 'practice'],
      ['check_drain', { blocked: 46, open: 54 }, 'owners_lists'],
      ['check_boost_level', { rises: 72, same: 28 }, 'practice'],
    ],
  },
  {
    id: 'over_primed',
    name: 'Fuel from much priming ran past the rings',
    kind: 'normal',
    weight: 10,
    why: 'Fuel primed and not burnt washes into the sump; it boils off when the oil gets hot.',
    source: 'practice',
    remedy: 'Change the oil if it smells of fuel; prime less. No repair.',
    work: null,
    rows: [
      ['looks', { thin: 74, milky: 2 }, 'practice'],
      ['check_boost_level', { same: 98 }, 'practice'],
    ],
  },
  {
    id: 'water',
    name: 'Water from short runs condensed in the oil',
    kind: 'fault',
    weight: 14,
    why: 'An engine that never gets hot keeps the water of its blow-by.',
    source: 'practice',
    remedy: 'Change the oil and run it hot; look at the breather.',
    work: { title: 'Change engine oil and filter, cut filter open', jasc: '8550' },
    rows: [
      ['looks', { milky: 84, thin: 3 }, 'practice'],
      ['check_boost_level', { same: 98 }, 'practice'],
    ],
  },
  {
    id: 'misread',
    name: 'Read at another time after running, or filled twice',
    kind: 'normal',
    weight: 30,
    why: 'Oil takes hours to run back to the sump, and two people may each have put a quart in.',
    source: 'practice',
    remedy: 'Read it again, standing, on level ground; drain what is too much. No repair.',
    work: null,
    rows: [
      ['looks', { usual: 95, thin: 3 }, 'practice'],
      ['filled', { yes: 76, no: 24 }, 'practice'],
      ['check_boost_level', { same: 98.5 }, 'practice'],
    ],
  },
  somethingElse(7),
];

export const oilLevel: Symptom = {
  id: 'oil_level',
  name: 'Oil level rises',
  hint: 'More oil on the dipstick than was put in.',
  questions,
  causes,
};

import type { Cause, Question, Symptom } from '../symptom.ts';
import { somethingElse } from './something-else.ts';
import { workQuestion } from './work-question.ts';

const questions: readonly Question[] = [
  {
    id: 'how',
    asks: 'How does it idle?',
    kind: 'look',
    minutes: 0.5,
    answers: [
      {
        id: 'speed',
        words: 'Smooth, but too slow or fast',
        says: 'It idles smoothly, at the wrong speed',
      },
      { id: 'rough', words: 'Rough all the time', says: 'It idles roughly all the time' },
      { id: 'hunts', words: 'Hunts up and down', says: 'Its idle hunts up and down' },
      {
        id: 'dies',
        words: 'Dies when the throttle closes',
        says: 'It dies when the throttle is closed',
      },
    ],
    usual: { speed: 24, rough: 36, hunts: 16, dies: 24 },
  },
  {
    id: 'smoke',
    asks: 'What does the exhaust show?',
    kind: 'look',
    minutes: 0.5,
    answers: [
      { id: 'none', words: 'Nothing', says: 'The exhaust shows nothing' },
      { id: 'black', words: 'Black smoke', says: 'The exhaust smokes black' },
      { id: 'blue', words: 'Blue smoke', says: 'The exhaust smokes blue' },
    ],
    usual: { none: 76, black: 16, blue: 8 },
  },
  workQuestion,
  {
    id: 'check_cut_off',
    asks: 'Rise of the revolutions at slow cut-off',
    kind: 'check',
    how: 'Warm, at idle, draw the mixture slowly to cut-off and read how far the revolutions rise before it dies.',
    minutes: 5,
    hazards: ['running'],
    answers: [
      {
        id: 'normal',
        words: 'As the maker says',
        says: 'At slow cut-off the revolutions rise as the maker says',
      },
      {
        id: 'wrong',
        words: 'None, or too far',
        says: 'At slow cut-off the revolutions rise too far, or not at all',
      },
    ],
    usual: { normal: 72, wrong: 28 },
  },
  {
    id: 'check_primer',
    asks: 'Primer: locked, and dry behind?',
    kind: 'check',
    how: 'See that the primer is in and locked; loosen its line at the engine and look for fuel.',
    minutes: 4,
    hazards: ['fuel'],
    answers: [
      { id: 'sound', words: 'Locked and dry', says: 'The primer is locked and dry' },
      { id: 'leaks', words: 'Open or leaking', says: 'The primer is open or leaks' },
    ],
    usual: { sound: 97, leaks: 3 },
  },
  {
    id: 'check_magnetos',
    asks: 'Magneto check',
    kind: 'check',
    how: 'Run it on each magneto in turn and read the drop.',
    minutes: 6,
    hazards: ['running'],
    answers: [
      {
        id: 'even',
        words: 'Even, within limits',
        says: 'Both magnetos drop evenly, within limits',
      },
      {
        id: 'rough',
        words: 'Rough or too far on one',
        says: 'On one magneto it runs roughly or drops too far',
      },
    ],
    usual: { even: 90, rough: 10 },
  },
  {
    id: 'check_induction',
    asks: 'Induction: gaskets, hoses, connections',
    kind: 'check',
    how: 'Look for fuel stains at the intake flanges, move the hoses, tighten nothing yet.',
    minutes: 20,
    hazards: ['hot', 'fuel'],
    answers: [
      { id: 'tight', words: 'Tight', says: 'The induction system is tight' },
      { id: 'leaks', words: 'Stained or loose', says: 'The induction system is stained or loose' },
    ],
    usual: { tight: 93, leaks: 7 },
  },
  {
    id: 'check_compression',
    asks: 'Differential compression, all cylinders',
    kind: 'check',
    how: 'At 80 psi, warm. A loss in excess of 25 % is cause to suspect the cylinder (AC 43.13-1B 8-14): 59/80 is, 60/80 is not.',
    minutes: 75,
    hazards: ['ignition', 'turning', 'pressure'],
    answers: [
      { id: 'good', words: 'None loses over 25 %', says: 'No cylinder loses more than 25 %' },
      { id: 'low', words: 'One loses over 25 %', says: 'A cylinder loses more than 25 %' },
    ],
    usual: { good: 92, low: 8 },
  },
];

/** The table of troubles, "engine fails to idle properly". */
const causes: readonly Cause[] = [
  {
    id: 'idle_adjustment',
    name: 'Idle speed or idle mixture set wrongly',
    kind: 'fault',
    weight: 32,
    why: 'A stop or a mixture screw moved, or the weather changed by a season.',
    source: 'powerplant_handbook',
    remedy: 'Adjust as the maker says.',
    work: { title: 'Set idle speed and mixture', jasc: '7322' },
    rows: [
      ['how', { speed: 42, dies: 26 }, 'practice'],
      ['work', { fuel: 20 }, 'practice'],
      ['check_cut_off', { wrong: 86, normal: 14 }, 'powerplant_handbook'],
    ],
  },
  {
    id: 'induction_leak',
    name: 'Leak in the induction system',
    kind: 'fault',
    weight: 20,
    why: 'Air that enters behind the carburettor thins the mixture, most at idle.',
    source: 'powerplant_handbook',
    remedy: 'Tighten the connections; replace what is defective.',
    work: { title: 'Reseal intake pipes and hoses', jasc: '7160' },
    rows: [
      ['how', { hunts: 34, rough: 36 }, 'practice'],
      ['check_induction', { leaks: 90, tight: 10 }, 'powerplant_handbook'],
      ['check_cut_off', { wrong: 52 }, 'practice'],
    ],
  },
  {
    id: 'ignition_faulty',
    name: 'Faulty ignition system',
    kind: 'fault',
    weight: 16,
    why: 'A fouled plug, a cracked lead or a weak magneto misses on one cylinder.',
    source: 'powerplant_handbook',
    remedy: 'Check the whole ignition system.',
    work: { title: 'Remove, clean, gap and test spark plugs', jasc: '7421' },
    rows: [
      ['how', { rough: 72, speed: 4 }, 'practice'],
      ['work', { ignition: 18 }, 'practice'],
      ['check_magnetos', { rough: 90, even: 10 }, 'practice'],
    ],
  },
  {
    id: 'low_compression',
    name: 'Low compression of a cylinder',
    kind: 'fault',
    weight: 12,
    why: 'A valve or its rings leak: the cylinder pulls less, most at idle.',
    source: 'powerplant_handbook',
    remedy: 'Check the compression; find whether air leaves by exhaust, intake or breather.',
    work: { title: 'Differential compression test, all cylinders', jasc: '8530' },
    rows: [
      ['how', { rough: 76, speed: 4 }, 'practice'],
      ['smoke', { blue: 24 }, 'practice'],
      ['check_compression', { low: 92, good: 8 }, 'powerplant_handbook'],
    ],
  },
  {
    id: 'primer',
    name: 'Primer open or leaking',
    kind: 'fault',
    weight: 9,
    why: 'It draws fuel past the carburettor: the mixture is rich, most at idle.',
    source: 'powerplant_handbook',
    remedy: 'Lock it or repair it.',
    work: { title: 'Reseal the primer', jasc: '7310' },
    rows: [
      ['how', { rough: 44, dies: 28 }, 'practice'],
      ['smoke', { black: 54, none: 44 }, 'practice'],
      ['check_primer', { leaks: 95, sound: 5 }, 'powerplant_handbook'],
      ['check_cut_off', { wrong: 60 }, 'practice'],
    ],
  },
  somethingElse(9),
];

export const idling: Symptom = {
  id: 'idling',
  name: 'The engine does not idle',
  hint: 'Rough, hunting, too slow, or it dies.',
  questions,
  causes,
};

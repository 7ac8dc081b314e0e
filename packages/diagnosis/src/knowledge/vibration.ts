import type { Question, Symptom } from '../symptom.ts';
import { somethingElse } from './something-else.ts';
import { vibrationCauses } from './vibration-causes.ts';
import { workQuestion } from './work-question.ts';

const questions: readonly Question[] = [
  {
    id: 'rate',
    asks: 'How fast is it?',
    kind: 'look',
    minutes: 0.5,
    answers: [
      { id: 'low', words: 'Slow: one can count it', says: 'It is slow, one can count it' },
      {
        id: 'medium',
        words: 'A buzz: 1,000 to 2,000 a minute',
        says: 'It is of medium frequency, 1,000 to 2,000 a minute',
      },
      {
        id: 'high',
        words: 'Fine: above 2,000 a minute',
        says: 'It is of high frequency, above 2,000 a minute',
      },
    ],
    usual: { low: 34, medium: 36, high: 30 },
  },
  {
    id: 'felt',
    asks: 'Where is it felt most?',
    kind: 'look',
    minutes: 0.5,
    answers: [
      {
        id: 'airframe',
        words: 'Stick, controls, whole airframe',
        says: 'It is felt in the controls and the airframe',
      },
      { id: 'pedals', words: 'Pedals', says: 'It is felt in the pedals' },
      {
        id: 'engine',
        words: 'Engine and floor',
        says: 'It is felt at the engine and in the floor',
      },
      { id: 'panel', words: 'Instrument panel', says: 'It is seen at the instrument panel' },
    ],
    usual: { airframe: 36, pedals: 16, engine: 32, panel: 16 },
  },
  {
    id: 'when',
    asks: 'When?',
    kind: 'look',
    minutes: 0.5,
    answers: [
      { id: 'flight', words: 'In flight, with speed', says: 'It grows with speed in flight' },
      { id: 'hover', words: 'In the hover', says: 'It is there in the hover', only: 'helicopter' },
      {
        id: 'all_power',
        words: 'With power, on the ground too',
        says: 'It follows the power, on the ground too',
      },
      { id: 'idle', words: 'At idle only', says: 'It is there at idle only' },
    ],
    usual: { flight: 34, hover: 16, all_power: 36, idle: 14 },
  },
  workQuestion,
  {
    id: 'check_disengaged',
    asks: 'Engine alone, drive disengaged',
    kind: 'check',
    how: 'Run the engine with the drive disengaged, where the flight manual allows it, and feel whether it stays.',
    minutes: 8,
    only: 'helicopter',
    hazards: ['running'],
    answers: [
      { id: 'gone', words: 'It is gone', says: 'With the drive disengaged it is gone' },
      { id: 'stays', words: 'It stays', says: 'With the drive disengaged it stays' },
    ],
    usual: { gone: 56, stays: 44 },
  },
  {
    id: 'check_magnetos',
    asks: 'Magneto check',
    kind: 'check',
    how: 'Run it on each magneto in turn and read the drop.',
    minutes: 6,
    hazards: ['running'],
    answers: [
      { id: 'even', words: 'Even', says: 'Both magnetos drop evenly' },
      { id: 'one_rough', words: 'Rough on one', says: 'On one magneto it runs roughly' },
      { id: 'both_far', words: 'Too far on both', says: 'It drops too far on both magnetos' },
    ],
    usual: { even: 90, one_rough: 7, both_far: 3 },
  },
  {
    id: 'check_heat',
    asks: 'Carburettor heat on for a minute',
    kind: 'check',
    how: 'Full carburettor heat at the speed at which it shakes; wait a minute.',
    minutes: 4,
    hazards: ['running'],
    answers: [
      { id: 'same', words: 'No change', says: 'Carburettor heat changes nothing' },
      { id: 'clears', words: 'It clears', says: 'Carburettor heat clears it' },
    ],
    usual: { same: 97, clears: 3 },
  },
  {
    id: 'check_mixture',
    asks: 'Lean the mixture a little',
    kind: 'check',
    how: 'Lean, then enrich, at the speed at which it shakes.',
    minutes: 4,
    hazards: ['running'],
    answers: [
      { id: 'same', words: 'No change', says: 'Leaning and enriching change nothing' },
      { id: 'changes', words: 'It changes', says: 'Leaning or enriching changes it' },
    ],
    usual: { same: 92, changes: 8 },
  },
  {
    id: 'check_track',
    asks: 'Track of the blades',
    kind: 'check',
    how: 'Read the track and the balance of the main rotor with the tracking gear.',
    minutes: 60,
    only: 'helicopter',
    hazards: ['running'],
    answers: [
      { id: 'in', words: 'In limits', says: 'The main rotor is in track and balance' },
      { id: 'out', words: 'Out', says: 'The main rotor is out of track or balance' },
    ],
    usual: { in: 88, out: 12 },
  },
  {
    id: 'check_drive',
    asks: 'Belts, fan, shafts and bearings by hand',
    kind: 'check',
    how: 'Turn the drive by hand: listen, feel for play, look along belts, fan and shafts.',
    minutes: 20,
    only: 'helicopter',
    hazards: ['turning', 'ignition'],
    answers: [
      { id: 'sound', words: 'Sound', says: 'Belts, fan, shafts and bearings are sound' },
      {
        id: 'fan',
        words: 'Fan loose or out of true',
        says: 'The cooling fan is loose or out of true',
      },
      {
        id: 'drive',
        words: 'A belt, shaft or bearing is not',
        says: 'A belt, shaft or bearing of the drive is not sound',
      },
      {
        id: 'tail',
        words: 'Tail rotor has play',
        says: 'The tail rotor or its bearings have play',
      },
      {
        id: 'head',
        words: 'Rotor head or damper has play',
        says: 'A rotor head bearing or damper has play',
      },
    ],
    usual: { sound: 84, fan: 4, drive: 5, tail: 4, head: 3 },
  },
];

export const vibration: Symptom = {
  id: 'vibration',
  name: 'Vibration',
  hint: 'A shake or buzz that was not there.',
  questions,
  causes: [...vibrationCauses, somethingElse(8)],
};

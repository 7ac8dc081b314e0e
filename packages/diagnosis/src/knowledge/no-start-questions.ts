import type { Question } from '../symptom.ts';
import { workQuestion } from './work-question.ts';

/** What is noticed when it will not start, and the checks that tell its causes apart. */
export const noStartQuestions: readonly Question[] = [
  {
    id: 'turns',
    asks: 'How does it turn on the starter?',
    kind: 'look',
    minutes: 0.5,
    answers: [
      { id: 'well', words: 'Well, but does not fire', says: 'It turns well and does not fire' },
      { id: 'fires', words: 'Fires and dies', says: 'It fires and dies' },
      { id: 'slowly', words: 'Slowly', says: 'It turns slowly' },
      { id: 'kicks', words: 'Kicks back', says: 'It kicks back' },
      { id: 'stuck', words: 'Stiff or noisy', says: 'It is stiff or noisy to turn' },
    ],
    usual: { well: 52, fires: 22, slowly: 14, kicks: 7, stuck: 5 },
  },
  {
    id: 'smell',
    asks: 'Does it smell of fuel?',
    kind: 'look',
    minutes: 0.5,
    answers: [
      { id: 'no', words: 'No', says: 'It does not smell of fuel' },
      { id: 'yes', words: 'Yes, strongly', says: 'It smells strongly of fuel' },
    ],
    usual: { no: 68, yes: 32 },
  },
  {
    id: 'engine_is',
    asks: 'The engine is …',
    kind: 'look',
    minutes: 0.5,
    answers: [
      { id: 'cold', words: 'Cold, in frost', says: 'The engine is cold, in frost' },
      { id: 'mild', words: 'Cold, mild weather', says: 'The engine is cold, the weather mild' },
      { id: 'hot', words: 'Hot', says: 'The engine is hot' },
    ],
    usual: { cold: 22, mild: 52, hot: 26 },
  },
  workQuestion,
  {
    id: 'check_tank',
    asks: 'Fuel: tanks, selector, flow',
    kind: 'check',
    how: 'Read the tanks by dipstick, see the selector open, and catch what flows at the strainer drain.',
    minutes: 4,
    hazards: ['fuel'],
    answers: [
      { id: 'flows', words: 'Fuel flows', says: 'There is fuel and it flows' },
      {
        id: 'none',
        words: 'No fuel, or it hardly flows',
        says: 'There is no fuel, or it hardly flows',
      },
    ],
    usual: { flows: 97, none: 3 },
  },
  {
    id: 'check_sample',
    asks: 'Sample from carburettor and lines',
    kind: 'check',
    how: 'Drain the carburettor bowl and the lines into a glass.',
    minutes: 8,
    hazards: ['fuel'],
    answers: [
      { id: 'clean', words: 'Clean fuel', says: 'The sample is clean' },
      { id: 'water', words: 'Water in it', says: 'The sample holds water' },
    ],
    usual: { clean: 97, water: 3 },
  },
  {
    id: 'check_plugs',
    asks: 'Take out two spark plugs',
    kind: 'check',
    how: 'Take the lower plugs of two cylinders out, look at the electrodes and measure their gap.',
    minutes: 25,
    hazards: ['ignition', 'hot'],
    answers: [
      { id: 'sound', words: 'Sound and dry', says: 'The spark plugs are sound and dry' },
      {
        id: 'worn',
        words: 'Fouled, worn or iced',
        says: 'The spark plugs are fouled, worn or iced',
      },
      { id: 'wet', words: 'Wet with fuel', says: 'The spark plugs are wet with fuel' },
    ],
    usual: { sound: 74, worn: 12, wet: 14 },
  },
  {
    id: 'check_coupling',
    asks: 'Turn by hand: does the impulse coupling snap?',
    kind: 'check',
    how: 'Turn the engine slowly by hand in its direction and listen at the magneto; then hold a steel clip to the coupling.',
    minutes: 6,
    hazards: ['ignition', 'turning'],
    answers: [
      { id: 'snaps', words: 'It snaps', says: 'The impulse coupling snaps' },
      {
        id: 'sticks',
        words: 'It does not, or draws steel',
        says: 'The impulse coupling does not snap, or draws steel',
      },
    ],
    usual: { snaps: 96, sticks: 4 },
  },
  {
    id: 'check_timing',
    asks: 'Internal timing of the magnetos',
    kind: 'check',
    how: 'Set the timing marks and look with a timing light when the points open.',
    minutes: 40,
    hazards: ['ignition', 'turning'],
    answers: [
      { id: 'right', words: 'Right', says: 'The magnetos are timed right' },
      {
        id: 'out',
        words: 'Out, or points burnt',
        says: 'The magneto timing is out, or its points are burnt',
      },
    ],
    usual: { right: 95, out: 5 },
  },
  {
    id: 'check_switch',
    asks: 'Ignition switch and ground wire',
    kind: 'check',
    how: 'Measure from each magneto lead to ground with the switch at off and at both.',
    minutes: 12,
    hazards: ['ignition'],
    answers: [
      { id: 'sound', words: 'Sound', says: 'Ignition switch and ground wire are sound' },
      {
        id: 'shorted',
        words: 'Shorted, or ground loose',
        says: 'The ignition switch is shorted, or its ground loose',
      },
    ],
    usual: { sound: 97, shorted: 3 },
  },
  {
    id: 'check_battery',
    asks: 'Battery voltage while it turns',
    kind: 'check',
    how: 'Read the voltage at the battery while the starter turns.',
    minutes: 4,
    hazards: ['running'],
    answers: [
      { id: 'holds', words: 'It holds', says: 'The battery holds its voltage' },
      { id: 'drops', words: 'It drops far', says: 'The battery voltage drops far' },
    ],
    usual: { holds: 90, drops: 10 },
  },
  {
    id: 'check_screen',
    asks: 'Oil sump strainer: metal?',
    kind: 'check',
    how: 'Take the sump strainer out and look for metal.',
    minutes: 35,
    hazards: ['hot'],
    answers: [
      { id: 'clean', words: 'Clean', says: 'The oil sump strainer is clean' },
      { id: 'metal', words: 'Metal', says: 'There is metal in the oil sump strainer' },
    ],
    usual: { clean: 98, metal: 2 },
  },
];

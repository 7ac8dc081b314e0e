import type { Knowledge, Symptom } from '../src/index.ts';

const answers = [
  { id: 'yes', words: 'Yes', says: 'It is' },
  { id: 'no', words: 'No', says: 'It is not' },
];
const usual = { yes: 50, no: 50 };
const cause = {
  kind: 'fault',
  weight: 50,
  why: '',
  source: 'practice',
  remedy: '',
  work: null,
} as const;

/** Small enough for pencil and paper: one question that tells, one that depends on another, one that tells nothing. */
export const symptom: Symptom = {
  id: 's',
  name: 'S',
  hint: '',
  questions: [
    { id: 'tells', asks: 'Tells?', kind: 'check', minutes: 10, answers, usual },
    { id: 'mute', asks: 'Mute?', kind: 'look', minutes: 1, answers, usual },
    { id: 'parent', asks: 'Parent?', kind: 'look', minutes: 1, answers, usual },
    { id: 'child', asks: 'Child?', kind: 'look', minutes: 1, given: 'parent', answers, usual },
  ],
  causes: [
    {
      ...cause,
      id: 'a',
      name: 'A',
      rows: [
        ['tells', { yes: 80 }, 'practice'],
        ['child', { yes: 90 }, 'practice', 'yes'],
        ['child', { yes: 10 }, 'practice', 'no'],
      ],
    },
    { ...cause, id: 'b', name: 'B', rows: [['tells', { yes: 20 }, 'practice']] },
  ],
};

export const twoCauses: Knowledge = {
  symptoms: [symptom],
  learnt: { causes: {}, answers: {}, cases: {} },
};

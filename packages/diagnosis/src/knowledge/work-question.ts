import type { Question } from '../symptom.ts';

/** Asked with several symptoms; a shop's order answers it by the JASC codes of its items: see work-before.ts. */
export const workQuestion: Question = {
  id: 'work',
  asks: 'What was worked on just before?',
  kind: 'look',
  minutes: 0.5,
  answers: [
    { id: 'nothing', words: 'Nothing lately', says: 'Nothing was worked on lately' },
    {
      id: 'oil',
      words: 'Oil or its filter',
      says: 'The oil or its filter was changed just before',
    },
    { id: 'fuel', words: 'Fuel system', says: 'The fuel system was worked on just before' },
    { id: 'ignition', words: 'Ignition', says: 'The ignition was worked on just before' },
    { id: 'engine', words: 'Engine otherwise', says: 'The engine was worked on just before' },
    {
      id: 'rotor_drive',
      words: 'Rotors or their drive',
      says: 'Rotors or their drive were worked on just before',
      only: 'helicopter',
    },
    {
      id: 'hydraulic',
      words: 'Hydraulics or brakes',
      says: 'Hydraulics or brakes were worked on just before',
    },
    { id: 'wash', words: 'It was washed', says: 'It was washed just before' },
    { id: 'other', words: 'Something else', says: 'Something else was worked on just before' },
  ],
  usual: {
    nothing: 42,
    oil: 14,
    fuel: 7,
    ignition: 6,
    engine: 9,
    rotor_drive: 6,
    hydraulic: 4,
    wash: 3,
    other: 9,
  },
};

import type { Cause, Question, Symptom } from '../symptom.ts';
import { somethingElse } from './something-else.ts';

const questions: readonly Question[] = [
  {
    id: 'looks',
    asks: 'What does the hose look like?',
    kind: 'look',
    minutes: 0.5,
    answers: [
      { id: 'blister', words: 'A blister', says: 'The hose has a blister' },
      { id: 'chafed', words: 'Chafed', says: 'The hose is chafed' },
      { id: 'cracked', words: 'Cracked or hard', says: 'The hose is cracked or hard' },
      { id: 'wet', words: 'Wet', says: 'The hose is wet' },
      { id: 'kinked', words: 'Kinked or flattened', says: 'The hose is kinked or flattened' },
    ],
    usual: { blister: 12, chafed: 34, cracked: 28, wet: 18, kinked: 8 },
  },
  {
    id: 'touches',
    asks: 'Does it touch something?',
    kind: 'look',
    minutes: 0.5,
    answers: [
      { id: 'no', words: 'No', says: 'The hose touches nothing' },
      { id: 'frame', words: 'A tube or an edge', says: 'The hose lies on a tube or an edge' },
      { id: 'hot', words: 'Close to the exhaust', says: 'The hose runs close to the exhaust' },
    ],
    usual: { no: 60, frame: 24, hot: 16 },
  },
  {
    id: 'check_prick',
    asks: 'Prick the blister: what comes out?',
    kind: 'check',
    how: 'Pressure off. Prick the cover of the blister with a pin and see whether fluid or air comes.',
    minutes: 4,
    hazards: ['pressure', 'fuel'],
    answers: [
      { id: 'fluid', words: 'Fluid', says: 'Fluid comes out of the pricked blister' },
      { id: 'air', words: 'Air only', says: 'Only air comes out of the pricked blister' },
    ],
    usual: { fluid: 20, air: 80 },
  },
];

const renew = { title: 'Replace one fuel hose, engine bay', jasc: '7310' };

const causes: readonly Cause[] = [
  {
    id: 'core',
    name: 'Failed through to the core',
    kind: 'fault',
    weight: 16,
    why: 'Fluid under the cover has passed the core: the hose bursts next.',
    source: 'powerplant_hoses',
    remedy: 'Reject the hose.',
    work: renew,
    rows: [
      ['looks', { blister: 46, wet: 40, chafed: 4 }, 'powerplant_hoses'],
      ['check_prick', { fluid: 95, air: 5 }, 'powerplant_hoses'],
    ],
  },
  {
    id: 'cover_only',
    name: 'Only the cover has come loose',
    kind: 'fault',
    weight: 9,
    why: 'Air got under the cover; the core may be sound.',
    source: 'powerplant_hoses',
    remedy: 'Pressure test to one and a half times the working pressure; reject it if it leaks.',
    work: { title: 'Pressure test the hose', jasc: '7310' },
    rows: [
      ['looks', { blister: 80, wet: 1 }, 'powerplant_hoses'],
      ['check_prick', { air: 97, fluid: 3 }, 'powerplant_hoses'],
    ],
  },
  {
    id: 'no_clamp',
    name: 'It chafes where a clamp is missing or loose',
    kind: 'fault',
    weight: 32,
    why: 'What moves against an edge is through its cover in some hundred hours.',
    source: 'practice',
    remedy: 'Replace it if the cord shows; a cushion clamp that keeps it clear.',
    work: { title: 'Replace the chafed hose, clamp it clear', jasc: '7310' },
    rows: [
      ['looks', { chafed: 90, blister: 1 }, 'practice'],
      ['touches', { frame: 82, no: 8 }, 'practice'],
    ],
  },
  {
    id: 'aged',
    name: 'Hardened by heat and age',
    kind: 'fault',
    weight: 28,
    why: 'Rubber near the exhaust hardens and cracks; its date may have passed.',
    source: 'practice',
    remedy: 'Replace it; fit or renew the fire sleeve or shield.',
    work: renew,
    rows: [
      ['looks', { cracked: 82, blister: 3 }, 'practice'],
      ['touches', { hot: 46 }, 'practice'],
    ],
  },
  {
    id: 'set_wrong',
    name: 'Fitted twisted or bent too tightly',
    kind: 'fault',
    weight: 8,
    why: 'A hose set with a twist turns itself loose or flattens.',
    source: 'practice',
    remedy: 'Fit it again without twist, or replace it.',
    work: { title: 'Refit or replace the hose', jasc: '7310' },
    rows: [['looks', { kinked: 82 }, 'practice']],
  },
  somethingElse(7),
];

export const hose: Symptom = {
  id: 'hose',
  name: 'A hose looks bad',
  hint: 'A blister, a chafed or cracked cover, a kink.',
  questions,
  causes,
};

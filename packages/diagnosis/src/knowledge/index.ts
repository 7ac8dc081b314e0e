import type { Knowledge } from '../knowledge.ts';
import { nothingLearnt } from '../knowledge.ts';
import { fluid } from './fluid.ts';
import { hose } from './hose.ts';
import { idling } from './idling.ts';
import { light } from './light.ts';
import { noStart } from './no-start.ts';
import { oilLevel } from './oil-level.ts';
import { oilPressure } from './oil-pressure.ts';
import { trace } from './trace.ts';
import { vibration } from './vibration.ts';

/** What the program knows before a shop has closed anything. */
export const tables: Knowledge = {
  symptoms: [fluid, trace, hose, light, vibration, noStart, idling, oilPressure, oilLevel],
  learnt: nothingLearnt,
};

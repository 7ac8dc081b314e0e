import type { Symptom } from '../symptom.ts';
import { fluidChecks } from './fluid-checks.ts';
import { fuelCauses } from './fluid-fuel.ts';
import { oilCauses } from './fluid-oil.ts';
import { otherFluidCauses } from './fluid-other.ts';
import { fluidLooks } from './fluid-questions.ts';
import { somethingElse } from './something-else.ts';

export const fluid: Symptom = {
  id: 'fluid',
  name: 'Fluid where it should not be',
  hint: 'A drip, a stain, a wet place, a puddle.',
  questions: [...fluidLooks, ...fluidChecks],
  causes: [...oilCauses, ...fuelCauses, ...otherFluidCauses, somethingElse(9)],
};

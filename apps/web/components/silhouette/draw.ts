import { singlePlan, singleSide, twinPlan, twinSide } from './airplane.ts';
import type { AircraftKind, AircraftSize, Drawing } from './drawing.ts';
import { helicopterPlan, helicopterSide } from './helicopter.ts';

export type View = 'side' | 'plan';

/**
 * The drawing of an aircraft kind to a model's dimensions.
 *
 * @throws RangeError where a dimension is not above zero
 */
export function drawAircraft(kind: AircraftKind, size: AircraftSize, view: View): Drawing {
  for (const [name, value] of Object.entries(size)) {
    if (!(value > 0))
      throw new RangeError(`Cannot draw: ${name} is ${value} m, needs to be above 0 m`);
  }
  switch (kind) {
    case 'airplane_single':
      return view === 'side' ? singleSide(size) : singlePlan(size);
    case 'airplane_twin':
      return view === 'side' ? twinSide(size) : twinPlan(size);
    default:
      return view === 'side' ? helicopterSide(kind, size) : helicopterPlan(kind, size);
  }
}

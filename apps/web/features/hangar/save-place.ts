import { request } from '../../graphql/request.ts';
import { dayAndTimeText } from '../../lib/figures/dates.ts';
import { instantOf } from '../../lib/shop-time.ts';
import {
  DepartAircraftDocument,
  DropPlanDocument,
  MoveAircraftDocument,
  PlanDepartureDocument,
  PlanStayDocument,
  ReplanStayDocument,
  type Stay,
} from './floor-documents.ts';
import { standName } from './floor-words.ts';

/** Where an aircraft "goes" that leaves the floor. */
export const OFF = 'off';

/** What the form asks for: an aircraft, a place, and now or a time to come. */
export interface Wish {
  aircraftId: string;
  /** A stand's id, or `OFF`. */
  to: string;
  when: 'now' | 'planned';
  /** The shop's wall clock, as fields hold it; only `from` counts for a departure. */
  from: string;
  until: string;
  orderId: string;
  /** The plan that is carried out or changed; null: it is about the aircraft as it stands. */
  plan: Stay | null;
  /** The aircraft's floorVersion as it was seen. */
  seenVersion: string;
}

export type Outcome =
  | { kind: 'saved'; words: string /** The stay that was planned. */; plannedId: string | null }
  | { kind: 'refused'; message: string; field: string | null }
  | { kind: 'moved'; message: string };

type Answer =
  | { __typename: 'Stay'; id: string; stand: { name: string }; aircraft: { registration: string } }
  | { __typename: 'Aircraft'; registration: string }
  | { __typename: 'Refusal'; message: string; field: string | null }
  | { __typename: 'MovedMeanwhile'; message: string };

/** Sends a wish as the one change that it is. */
export async function savePlace(wish: Wish, timeZone: string): Promise<Outcome> {
  const answer = await send(wish, timeZone);
  if (answer.__typename === 'Refusal')
    return { kind: 'refused', message: answer.message, field: answer.field };
  if (answer.__typename === 'MovedMeanwhile') return { kind: 'moved', message: answer.message };
  const planned = wish.when === 'planned' && answer.__typename === 'Stay';
  return {
    kind: 'saved',
    words: savedWords(wish, answer, timeZone),
    plannedId: planned ? answer.id : null,
  };
}

async function send(wish: Wish, timeZone: string): Promise<Answer> {
  const { aircraftId, to, when, plan, seenVersion } = wish;
  const at = (wall: string) => instantOf(wall, timeZone);
  if (to === OFF) {
    if (plan !== null)
      return (await request(DropPlanDocument, { input: { stayId: plan.id, seenVersion } })).answer;
    if (when === 'now')
      return (await request(DepartAircraftDocument, { input: { aircraftId, seenVersion } })).answer;
    const input = { aircraftId, at: at(wish.from), seenVersion };
    return (await request(PlanDepartureDocument, { input })).answer;
  }
  if (when === 'now') {
    const input = { aircraftId, standId: to, planId: plan?.id ?? null, seenVersion };
    return (await request(MoveAircraftDocument, { input })).answer;
  }
  const place = { standId: to, startsAt: at(wish.from), endsAt: at(wish.until), seenVersion };
  if (plan !== null)
    return (await request(ReplanStayDocument, { input: { stayId: plan.id, ...place } })).answer;
  const order = wish.orderId === '' ? {} : { orderId: wish.orderId };
  return (await request(PlanStayDocument, { input: { aircraftId, ...place, ...order } })).answer;
}

function savedWords(
  { to, when, from }: Wish,
  answer: Extract<Answer, { __typename: 'Stay' | 'Aircraft' }>,
  timeZone: string,
): string {
  if (answer.__typename === 'Aircraft')
    return `${answer.registration} does not come: the plan is off.`;
  const { registration } = answer.aircraft;
  const day = () => dayAndTimeText(instantOf(from, timeZone), timeZone);
  if (to === OFF)
    return when === 'now' ? `${registration} has left.` : `${registration} leaves ${day()}.`;
  const place = standName(answer.stand.name);
  return when === 'now'
    ? `${registration} is on ${place}.`
    : `${registration} is planned on ${place} from ${day()}.`;
}

import type { WorkState } from '../../components/Hatch.tsx';
import { dayAndTimeText } from '../../lib/figures/dates.ts';
import { roundMoneyText } from '../../lib/figures/money.ts';
import { dayOfStay } from '../../lib/shop-time.ts';
import type { Floor, Stay } from './floor-documents.ts';
import { plannedEnd, type Standing } from './standing.ts';

type Order = NonNullable<Stay['order']>;
type Item = Order['items'][number];

const many = (count: number, one: string, several = `${one}s`) =>
  `${count} ${count === 1 ? one : several}`;

/** A stand's name as sentences use it, whether it is called "2" or "Stand 2". */
export const standName = (name: string): string => `stand ${name.replace(/^stand\s+/i, '')}`;

/**
 * What an order waits for, whom first: "owner: 1 finding", "parts: 2 items". Empty while the work
 * can go on.
 */
export function waitsFor({ state, items, findings }: Pick<Order, 'state' | 'items' | 'findings'>) {
  if (state !== 'here') return [];
  const found = (wanted: string) => findings.filter((finding) => finding.state === wanted).length;
  const held = (wanted: Item['waitingFor']) =>
    items.filter(({ waitingFor }) => waitingFor === wanted).length;
  const open = items.some((item) => ['open', 'in_work', 'waiting'].includes(item.state));
  const toInitial = open ? 0 : items.filter((item) => item.state === 'done').length;
  const owner = [
    ...(found('offered') ? [many(found('offered'), 'finding')] : []),
    ...(held('owner') ? [many(held('owner'), 'item')] : []),
  ];
  const inspector = [
    ...(found('noted') ? [`${many(found('noted'), 'finding')} to confirm`] : []),
    ...(held('inspection') + toInitial
      ? [`${many(held('inspection') + toInitial, 'item')} to initial`]
      : []),
  ];
  return [
    ...(owner.length ? [`owner: ${owner.join(' and ')}`] : []),
    ...(found('assessed') ? [`front desk: ${many(found('assessed'), 'finding')} to offer`] : []),
    ...(inspector.length ? [`inspector: ${inspector.join(' and ')}`] : []),
    ...(held('parts') ? [`parts: ${many(held('parts'), 'item')}`] : []),
    ...(held('help') ? [`a second pair of hands: ${many(held('help'), 'item')}`] : []),
    ...(held('bay') ? [`its bay: ${many(held('bay'), 'item')}`] : []),
  ];
}

const runningBy = ({ items }: Pick<Order, 'items'>) => [
  ...new Set(items.flatMap((item) => item.runningBy.map(({ initials }) => initials))),
];

/** The hatch of an aircraft by its order; null where it stands here without one. */
export function hatchOf({ order }: Stay): WorkState | null {
  if (order === null) return null;
  if (order.state === 'ready_to_sign') return 'ready_to_sign';
  if (order.state === 'released' || order.state === 'closed') return 'released';
  if (order.state !== 'here') return 'planned';
  if (runningBy(order).length > 0) return 'in_work';
  if (waitsFor(order).length > 0) return 'waiting';
  return order.items.every((item) => item.state === 'open') ? 'planned' : 'in_work';
}

/** How work stands, in words, beside what it waits for. */
function workWords(order: Order): string {
  const waits = waitsFor(order);
  const running = runningBy(order);
  const words = [
    ...(running.length > 0 ? [`in work by ${running.join(', ')}`] : []),
    ...(waits.length > 0 ? [`waits for ${waits.join(', ')}`] : []),
  ];
  if (words.length > 0) return words.join('; ');
  if (order.state === 'ready_to_sign') return 'ready to sign';
  if (order.state === 'released' || order.state === 'closed') return 'released';
  if (order.state !== 'here') return 'planned';
  return order.items.every((item) => item.state === 'open')
    ? 'not begun'
    : 'work begun, no clock runs';
}

export interface FloorNote {
  registration: string;
  /** After the registration: "100-hour inspection, day 3 of 4". */
  first: string;
  second: string;
  /** How far the work has gone past what was agreed; null where it has not. */
  beyond: string | null;
  /** What the work likely comes to when it is done, and, for the manager, what it has left the shop so far. */
  ahead: string | null;
}

/** The words beside an aircraft, as of a moment that is now or still to come. */
export function noteOf(
  { stay, part }: Standing,
  floor: Floor,
  at: string,
  { timeZone, currency }: { timeZone: string; currency: string },
): FloorNote {
  const { order } = stay;
  const end = plannedEnd(floor, stay);
  const whatFor = order === null ? 'stands here' : order.title;
  const day = dayOfStay(stay.startsAt, at, timeZone);
  const days = end === null ? null : dayOfStay(stay.startsAt, end, timeZone);
  const counted = days === null || days < day ? `day ${day}` : `day ${day} of ${days}`;
  const note = {
    registration: stay.aircraft.registration,
    first: `${whatFor}, ${counted}`,
    beyond: null,
    ahead: null,
  };
  if (part === 'leaving') return { ...note, second: `leaves ${standName(stay.stand.name)}` };
  if (part === 'coming' || at !== floor.asOf) {
    const until =
      end === null ? 'no day to leave is planned' : `until ${dayAndTimeText(end, timeZone)}`;
    const comes = part === 'coming' ? `comes to ${standName(stay.stand.name)}, ` : '';
    return { ...note, second: `${comes}${until}` };
  }
  if (order === null) {
    const until = end === null ? '' : `, leaves ${dayAndTimeText(end, timeZone)}`;
    return { ...note, second: `no work is ordered${until}` };
  }
  const { costSoFar, agreed, beyondAuthority } = order;
  const money = (minor: string) => roundMoneyText(BigInt(minor), currency);
  const spent = costSoFar === null ? 'no price yet' : `${money(costSoFar)} of ${money(agreed)}`;
  // An appointed look holds the stand and no hands: it is said beside what does.
  const look =
    order.appointedLook === null
      ? ''
      : `; leak check ${dayAndTimeText(order.appointedLook, timeZone)}`;
  const past = beyondAuthority !== null && BigInt(beyondAuthority) > 0n ? beyondAuthority : null;
  return {
    ...note,
    second: `${workWords(order)}${look} · ${spent}`,
    beyond: past === null ? null : `beyond authority: ${money(past)}`,
    ahead: aheadWords(order, money),
  };
}

/** "done: likely 1,150, may pass what was agreed · leaves 320 so far"; null where nothing of it is known. */
function aheadWords(
  { costAtCompletion: ahead, agreed, margin }: Order,
  money: (minor: string) => string,
): string | null {
  const mayPass = ahead !== null && BigInt(ahead.p90) > BigInt(agreed);
  const words = [
    ...(ahead === null
      ? []
      : [`done: likely ${money(ahead.p50)}${mayPass ? ', may pass what was agreed' : ''}`]),
    ...(margin === null ? [] : [`leaves us ${money(margin.left)} so far`]),
  ];
  return words.length === 0 ? null : words.join(' · ');
}

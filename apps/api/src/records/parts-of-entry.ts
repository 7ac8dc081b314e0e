import {
  type EntryPart,
  type EntryParts,
  hundredths,
  type MissingElement,
} from '@fairlead/airworthiness';
import { Prisma } from '@fairlead/database';
import { type PartMove, partLifeThen } from '../programme/queries.ts';
import type { ItemToSign, OrderToSign } from './order-to-sign.ts';

type Side = 'on' | 'off';

/**
 * Parts that went on and came off in the course of the items of an entry: what the stores issued for them, less what came
 * back, and the parts with a time of their own that were fitted and taken off.
 */
export function partsOf({ aircraft }: OrderToSign, items: readonly ItemToSign[]): EntryParts {
  const ids = new Set(items.map(({ id }) => id));
  const moved = (side: Side) =>
    aircraft.fittings
      .filter((stay) => ids.has(saidOf(stay, side)?.itemId ?? ''))
      .map((stay) => moveOf(stay, side, aircraft.fittings));
  return { on: [...items.flatMap(issuedFor), ...moved('on')], off: moved('off') };
}

/** What holds of one end of a stay. */
const saidOf = ({ handlings }: PartMove, side: Side) =>
  handlings.find((handling) => handling.side === side);

function moveOf(stay: PartMove, side: Side, all: readonly PartMove[]): EntryPart {
  const { component, position, aircraftTisHundredths, removedTisHundredths } = stay;
  const at = side === 'on' ? aircraftTisHundredths : removedTisHundredths;
  const said = saidOf(stay, 'off');
  return {
    ...{ title: component.title, partNumber: component.partNumber, serial: component.serial },
    position,
    ...partLifeThen(stay, side),
    aircraftAt: at === null ? undefined : hundredths(at),
    ...(side === 'off' &&
      said?.disposition && {
        disposition: { method: said.disposition, words: said.words },
        back: all.some(
          (other) =>
            other.id !== stay.id &&
            other.component.id === component.id &&
            other.fittedAt >= (stay.removedAt ?? stay.fittedAt) &&
            other.aircraftTisHundredths === removedTisHundredths,
        ),
      }),
  };
}

/** What the stores issued for an item, lot by lot, less what came back. */
function issuedFor({ movements }: ItemToSign): EntryPart[] {
  const lots = [...new Set(movements.map(({ lot }) => lot.id))];
  return lots.flatMap((lotId): EntryPart[] => {
    const moved = movements.filter(({ lot }) => lot.id === lotId);
    const left = moved.reduce((sum, { quantity }) => sum.minus(quantity), new Prisma.Decimal(0));
    const [first] = moved;
    if (!first || left.lessThanOrEqualTo(0)) return [];
    const { part, batch, tag, documents } = first.lot;
    const against = moved.find(({ despite }) => despite.includes('no_trace'));
    return [
      {
        ...{ title: part.title, partNumber: part.number, lifeLimited: false, overhauled: false },
        quantity: `${left.toFixed()} ${part.unit}`,
        ...(batch !== '' && { lot: batch }),
        trace:
          tag !== ''
            ? `release certificate ${tag}`
            : documents.length > 0
              ? 'release certificate kept as a document'
              : against
                ? `without release certificate: ${against.reason.replace(/\.$/, '')} (${against.by?.name ?? 'nobody named'})`
                : undefined,
      },
    ];
  });
}

/**
 * Parts that went on or came off while the aircraft was here, and that nobody named the work of: a description of the work
 * would be silent on them. What a part carries goes with it and is not asked for.
 */
export function unnamedParts({ aircraft, events, number }: OrderToSign): MissingElement[] {
  const from = events.find(({ kind }) => kind === 'arrived')?.at;
  const until = events.find(({ kind }) => kind === 'released')?.at;
  if (!from) return [];
  const here = (at: Date | null) => at !== null && at >= from && (!until || at <= until);
  const unnamed = (stay: PartMove, side: Side) => !saidOf(stay, side)?.itemId;
  const carried = ({ parentId, fittedAt }: PartMove) =>
    aircraft.fittings.some(
      (other) => other.component.id === parentId && other.fittedAt.getTime() === fittedAt.getTime(),
    );
  return aircraft.fittings.flatMap((stay) => {
    const { component, position, fittedAt, removedAt, removedWithParent } = stay;
    const name = `${component.title}, serial ${component.serial} (${position})`;
    return [
      ...(here(fittedAt) && !carried(stay) && unnamed(stay, 'on') ? ['fitted'] : []),
      ...(here(removedAt) && !removedWithParent && unnamed(stay, 'off') ? ['taken off'] : []),
    ].map((what) => ({
      paragraph: '14 CFR 43.9(a)(1)',
      what: `the work in whose course ${name} was ${what}`,
      remedy: `Name the item of order ${number} on the sheet of the part.`,
    }));
  });
}

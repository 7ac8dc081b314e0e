import { type SerialRange, serialLies } from './serials.ts';

/** One line of what a directive applies to. With a part number it is about that part, else about the aircraft. */
export interface Reach {
  /** Null: any model. */
  readonly model: { readonly id: string; readonly name: string } | null;
  /** Empty: the aircraft itself. */
  readonly partNumber: string;
  readonly serials: readonly SerialRange[];
}

export interface FittedPart {
  readonly id: string;
  readonly title: string;
  readonly partNumber: string;
  readonly serial: string;
}

/** An aircraft with what is fitted to it, as the shop knows it. */
export interface AircraftAsFitted {
  readonly registration: string;
  readonly serial: string;
  readonly model: { readonly id: string; readonly name: string };
  readonly parts: readonly FittedPart[];
}

export type ReachFound = 'applies' | 'does_not' | 'unclear';

/** What a directive says of the aircraft, or of one part that is fitted to it. */
export interface Applicability {
  /** Null: of the aircraft itself. */
  readonly partId: string | null;
  readonly found: ReachFound;
  readonly because: string;
}

const order: readonly ReachFound[] = ['applies', 'unclear', 'does_not'];
const same = (one: string, other: string) =>
  one.replaceAll(/\s+/g, '').toUpperCase() === other.replaceAll(/\s+/g, '').toUpperCase();

/**
 * Whom a directive reaches, by what it lists and by what is fitted (14 CFR 39.3 and 39.11 make the directive's own text
 * decide): one answer for the aircraft where any line is about aircraft, and one for each fitted part that a line names. What
 * cannot be told is said to be unclear, never to lie outside. It is an aid: a person who holds the certificate decides.
 *
 * @returns never empty; where only parts are named and none is fitted, one answer that says so
 * @throws RangeError for a directive that reaches nothing
 * @example applicabilityOf([{ model: null, partNumber: 'E-4', serials: readSerials('800 to 900') }], { registration: 'QQ-1', serial: '7', model: { id: 'm', name: 'T-2' }, parts: [{ id: 'e', title: 'Engine', partNumber: 'E-4', serial: '881' }] }) // → [{ partId: 'e', found: 'applies', because: 'Applies: Engine, part E-4, serial 881 lies within 800 to 900' }]
 */
export function applicabilityOf(
  reaches: readonly Reach[],
  aircraft: AircraftAsFitted,
): readonly Applicability[] {
  if (reaches.length === 0)
    throw new RangeError('A directive that reaches nothing applies to nothing: give its lines');
  const ofAircraft = reaches.filter(({ partNumber }) => partNumber === '');
  const ofParts = reaches.filter(({ partNumber }) => partNumber !== '');
  const parts = aircraft.parts.flatMap((part) => {
    const named = ofParts.filter(({ partNumber }) => same(partNumber, part.partNumber));
    if (named.length === 0) return [];
    const answers = named.map((reach) => ofPart(reach, part, aircraft));
    return [{ partId: part.id, ...foremost(answers) }];
  });
  const whole =
    ofAircraft.length === 0
      ? []
      : [{ partId: null, ...foremost(ofAircraft.map((reach) => ofWhole(reach, aircraft))) }];
  if (whole.length + parts.length > 0) return [...whole, ...parts];
  const named = [...new Set(ofParts.map(({ partNumber }) => partNumber))];
  return [
    {
      partId: null,
      found: 'does_not',
      because: `Does not apply: no part ${named.join(' or ')} is entered here as fitted to ${aircraft.registration}`,
    },
  ];
}

type Answer = Omit<Applicability, 'partId'>;

/** Of several lines the one that binds; of several that do not, the one that came nearest. */
const foremost = (answers: readonly Answer[]): Answer =>
  order.flatMap((found) => answers.filter((answer) => answer.found === found))[0] as Answer;

function ofWhole({ model, serials }: Reach, aircraft: AircraftAsFitted): Answer {
  if (model && model.id !== aircraft.model.id)
    return {
      found: 'does_not',
      because: `Does not apply: it is for the ${model.name}, and ${aircraft.registration} is a ${aircraft.model.name}`,
    };
  return said(serialLies(aircraft.serial, serials), `the ${aircraft.model.name}, `);
}

function ofPart({ model, serials }: Reach, part: FittedPart, aircraft: AircraftAsFitted): Answer {
  const { title, partNumber, serial } = part;
  if (model && model.id !== aircraft.model.id)
    return {
      found: 'does_not',
      because: `Does not apply: it is for part ${partNumber} on the ${model.name}, and ${aircraft.registration} is a ${aircraft.model.name}`,
    };
  const answer = serialLies(serial, serials);
  return said(
    answer,
    `${title}, part ${partNumber}, ${serials.length === 0 ? `serial ${serial}: ` : ''}`,
  );
}

function said({ lies, because }: ReturnType<typeof serialLies>, of: string): Answer {
  if (lies === 'within') return { found: 'applies', because: `Applies: ${of}${because}` };
  if (lies === 'outside') return { found: 'does_not', because: `Does not apply: ${of}${because}` };
  return { found: 'unclear', because: `Cannot be told: ${of}${because}` };
}

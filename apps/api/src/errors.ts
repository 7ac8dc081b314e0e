import { Prisma } from '@fairlead/database';
import { GraphQLError, type GraphQLFormattedError } from 'graphql';

/** Every way in which the shop says no. Each goes out as a `Refusal` with a sentence. */
export const refusalCodes = {
  BAD_INPUT: { http: 400, means: 'What was given cannot be used as it is.' },
  SIGN_IN_NEEDED: { http: 401, means: 'Nobody is signed in.' },
  FORBIDDEN: { http: 403, means: 'The person signed in may not do this.' },
  NOT_FOUND: { http: 404, means: 'There is no such thing in this shop.' },
  CONFLICT: { http: 409, means: 'Somebody or something else came first.' },
  AGAINST_RULE: { http: 422, means: 'A rule of the trade or of the shop forbids it.' },
  BEYOND_AGREED: { http: 422, means: 'It goes past what the owner has agreed to.' },
  NOT_ENOUGH_HISTORY: { http: 422, means: 'Too little is known to answer.' },
  TOO_LARGE: { http: 413, means: 'The request or the file is too big.' },
  UNAVAILABLE: { http: 503, means: 'The shop cannot answer just now; try again shortly.' },
} as const;

export type RefusalCode = keyof typeof refusalCodes;

/** The one error class. `message` says what was refused, the value given and the value needed. */
export class Refused extends Error {
  override readonly name = 'Refused';
  readonly code: RefusalCode;
  /** The input field that it is about, where there is one. */
  readonly field: string | null;
  constructor(code: RefusalCode, message: string, field: string | null = null) {
    super(message);
    this.code = code;
    this.field = field;
  }
}

export const notFound = (what: string) =>
  new Refused('NOT_FOUND', `There is no such ${what} in this shop.`);

/** What the constraints of the database mean in words, for whatever gets past the use-cases. */
const constraintSentences: Record<string, [RefusalCode, string]> = {
  stretch_one_at_a_time: [
    'CONFLICT',
    'A person is on one item at a time: this would put them on two.',
  ],
  stretch_ends_after_it_starts: ['BAD_INPUT', 'A stretch cannot end before it starts.'],
  stay_one_aircraft_a_stand: ['CONFLICT', 'Another aircraft stands there at that time.'],
  stay_one_stand_an_aircraft: ['CONFLICT', 'The aircraft stands somewhere else at that time.'],
  stay_ends_after_it_starts: ['BAD_INPUT', 'A stay cannot end before it starts.'],
  fitting_one_place_at_a_time: ['CONFLICT', 'The component is fitted somewhere else at that time.'],
  weekly_hours_once: ['CONFLICT', 'Two hours of one day would overlap.'],
  exception_once_a_day: ['CONFLICT', 'Another exception stands on one of these days already.'],
  certificate_ends_after_it_starts: [
    'BAD_INPUT',
    'The last day of a certificate cannot be before its first.',
  ],
  station_has_its_number: ['BAD_INPUT', 'A repair station needs the number of its certificate.'],
  address_whole: [
    'BAD_INPUT',
    'An address needs its first line, its city and its country, or none of it.',
  ],
  country_iso_3166: ['BAD_INPUT', 'A country needs its two letters of ISO 3166-1.'],
  vat_number_has_country: ['BAD_INPUT', 'A VAT number needs its country’s two letters before it.'],
  reserved_lies_there: [
    'AGAINST_RULE',
    'More would be reserved, given free or taken than that lot has for it.',
  ],
  part_relation_has_no_circle: [
    'AGAINST_RULE',
    'What stands in for a part would lead back to the part itself.',
  ],
  lot_never_below_zero: [
    'AGAINST_RULE',
    'The lot holds less than that: stores never go below zero.',
  ],
};

const sqlStates: Record<string, [RefusalCode, string]> = {
  '22P02': ['BAD_INPUT', 'A value is not of the form that it needs.'],
  '22003': ['BAD_INPUT', 'A number is too large to be kept.'],
  '22021': ['BAD_INPUT', 'A text holds a character that cannot be kept.'],
  '22008': ['BAD_INPUT', 'A date or time is out of range.'],
  FL001: [
    'AGAINST_RULE',
    'This is a fact already recorded: it is never changed, a correction is added.',
  ],
  FL004: [
    'AGAINST_RULE',
    'The shop would be left without a manager: make somebody else a manager first.',
  ],
  FL005: ['AGAINST_RULE', 'A signed entry is kept only with its signed link in the chain.'],
  FL002: ['BAD_INPUT', 'Figures that belong together do not agree.'],
  '23503': ['NOT_FOUND', 'Something that this refers to is not in this shop.'],
  '23505': ['CONFLICT', 'This is recorded already.'],
  '23514': ['BAD_INPUT', 'A value is outside of what can be kept.'],
  '23P01': ['CONFLICT', 'Two things would be in one place at one time.'],
  '25P02': ['BAD_INPUT', 'Given up, because another part of the same request was refused.'],
  '40001': ['CONFLICT', 'Somebody else changed the same thing; try again.'],
  '40P01': ['CONFLICT', 'Somebody else changed the same thing; try again.'],
  '42501': ['FORBIDDEN', 'The database does not let the application do this.'],
  '57014': ['UNAVAILABLE', 'It took too long; try again shortly.'],
};

const prismaCodes: Record<string, [RefusalCode, string]> = {
  P2000: ['BAD_INPUT', 'A text is longer than can be kept.'],
  P2002: ['CONFLICT', 'This is recorded already.'],
  P2003: ['NOT_FOUND', 'Something that this refers to is not in this shop.'],
  P2004: ['BAD_INPUT', 'A value is outside of what can be kept.'],
  P2007: ['BAD_INPUT', 'A value is not of the form that it needs.'],
  P2020: ['BAD_INPUT', 'A number is too large to be kept.'],
  P2023: ['BAD_INPUT', 'A value is not of the form that it needs.'],
  P2025: ['NOT_FOUND', 'There is no such thing in this shop.'],
  P2034: ['CONFLICT', 'Somebody else changed the same thing; try again.'],
};

const awayCodes = new Set([
  'P1001',
  'P1002',
  'P1008',
  'P1017',
  'P2024',
  'P2028',
  'P2037',
  'ECONNREFUSED',
  'ECONNRESET',
  'EPIPE',
  'ETIMEDOUT',
  'ENOTFOUND',
  '57P01',
  '57P02',
  '57P03',
  '08006',
  '08003',
  '08001',
  '53300',
]);
const awayText =
  /Can't reach database server|Connection terminated|timeout exceeded when trying to connect|Server has closed the connection|ECONNREFUSED|the database system is (starting up|shutting down|in recovery)|Unable to start a transaction/i;

const away = () =>
  new Refused(
    'UNAVAILABLE',
    'The database does not answer just now. Nothing was changed; try again in a few seconds.',
  );

/** Reads whatever a query threw, and says it as a refusal where it is one. Null: a fault of ours. */
export function refusalFrom(error: unknown): Refused | null {
  if (error instanceof Refused) return error;
  if (error instanceof GraphQLError && error.originalError) return refusalFrom(error.originalError);
  if (!(error instanceof Error)) return null;
  const text = error.message;
  const code = 'code' in error && typeof error.code === 'string' ? error.code : '';
  if (awayCodes.has(code)) return away();
  for (const [constraint, [refusal, sentence]] of Object.entries(constraintSentences))
    if (text.includes(constraint)) return new Refused(refusal, sentence);
  const state =
    sqlStates[code] ??
    sqlStates[/\bcode: "?([0-9A-Z]{5})\b/i.exec(text)?.[1] ?? ''] ??
    sqlStates[sqlStateOf(error)];
  if (state) return new Refused(...state);
  const known = prismaCodes[code];
  if (known) return new Refused(...known);
  if (awayText.test(text)) return away();
  if (error instanceof Prisma.PrismaClientValidationError)
    return new Refused('BAD_INPUT', 'A value is not of the form that it needs.');
  return null;
}

/** The SQLSTATE inside a driver-adapter error, where Prisma keeps it. */
function sqlStateOf(error: Error): string {
  const cause: unknown = 'meta' in error ? error.meta : error.cause;
  return /"(?:originalCode|code)":"([0-9A-Z]{5})"/.exec(JSON.stringify(cause ?? null))?.[1] ?? '';
}

/** What leaves the server: refusals as they are, the caller's mistakes named, everything else masked under an id. */
export function formatError(log: (error: unknown, id: string) => void, requestId: () => string) {
  return (formatted: GraphQLFormattedError, error: unknown): GraphQLFormattedError => {
    const original = error instanceof GraphQLError ? (error.originalError ?? error) : error;
    const refused = refusalFrom(original);
    const place = {
      ...(formatted.path && { path: formatted.path }),
      ...(formatted.locations && { locations: formatted.locations }),
    };
    if (refused)
      return {
        message: refused.message,
        ...place,
        extensions: { code: refused.code, ...(refused.field && { field: refused.field }) },
      };
    const code = String(formatted.extensions?.code ?? '');
    if (isCallersMistake(code, original, formatted))
      return {
        message: formatted.message.slice(0, 600),
        ...place,
        extensions: { code: code && code !== 'INTERNAL_SERVER_ERROR' ? code : 'BAD_INPUT' },
      };
    const id = requestId();
    log(error, id);
    return {
      message: `Something went wrong on our side. It is noted under ${id}.`,
      ...place,
      extensions: { code: 'INTERNAL', id },
    };
  };
}

/** Before anything ran, a GraphQL error is about the request. While it ran, only about what was given for an argument. */
function isCallersMistake(
  code: string,
  original: unknown,
  { path, message }: GraphQLFormattedError,
): boolean {
  if (code !== '' && code !== 'INTERNAL_SERVER_ERROR') return true;
  if (original instanceof Error && /^Pothos(Validation|Complexity)/.test(original.name))
    return true;
  if (path !== undefined) return /^(Argument|Variable) "/.test(message);
  return original instanceof GraphQLError && !original.originalError;
}

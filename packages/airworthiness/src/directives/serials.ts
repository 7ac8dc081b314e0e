/** One serial number, or all from one to another; without an end, all from there on. */
export interface SerialRange {
  /** What stands before the last digits, in capitals: "R-" of "R-1042". */
  readonly prefix: string;
  readonly from: number;
  readonly to: number;
  /** What stands after the digits, of a single serial number; a range has none. */
  readonly suffix: string;
  readonly words: string;
}

export interface SerialAnswer {
  readonly lies: 'within' | 'outside' | 'unclear';
  /** The half of a sentence that says why. */
  readonly because: string;
}

interface Serial {
  readonly prefix: string;
  readonly number: number;
  readonly suffix: string;
}

const MOST_PIECES = 500;
const RANGE = /^(.+?)\s*(?:–|\.\.|\s-\s|\sto\s|\sthrough\s)\s*(.+)$/i;
const ONWARD = /^(.+?)(?:\s+(?:and\s+)?(?:up|on|onward|onwards|subsequent))$/i;

/** A serial number taken apart at its last digits; null where it has none that can be counted. */
function serialOf(text: string): Serial | null {
  const plain = text.replaceAll(/\s+/g, '').toUpperCase();
  const [, prefix, digits, suffix] = /^(.*?)(\d{1,15})([^\d]*)$/.exec(plain) ?? [];
  return prefix === undefined || digits === undefined
    ? null
    : { prefix, number: Number(digits), suffix: suffix ?? '' };
}

/**
 * Reads serial numbers as a directive lists them: single ones, ranges and "and up", set apart by commas or semicolons.
 * Serial numbers hold hyphens, so a hyphen is a range only between blanks; what could be read both ways is refused.
 *
 * @param text empty: all serial numbers
 * @throws RangeError for a range that runs backwards or between serials of two kinds, and for what could mean two things
 * @example readSerials('1000 to 1100, 1204').length // → 2
 */
export function readSerials(text: string): readonly SerialRange[] {
  const pieces = text
    .split(/[,;\n]/)
    .map((piece) => piece.trim())
    .filter((piece) => piece !== '');
  if (pieces.length > MOST_PIECES)
    throw new RangeError(
      `Cannot use ${pieces.length} serial numbers and ranges: give at most ${MOST_PIECES}`,
    );
  return pieces.map(readPiece);
}

function readPiece(piece: string): SerialRange {
  const quoted = /^"(.+)"$/.exec(piece)?.[1];
  if (quoted !== undefined) return single(quoted);
  const onward = ONWARD.exec(piece)?.[1];
  if (onward !== undefined) {
    const first = counted(onward);
    return {
      ...{ prefix: first.prefix, from: first.number, to: Number.MAX_SAFE_INTEGER, suffix: '' },
      words: `${onward.trim()} and up`,
    };
  }
  const [, low, high] = RANGE.exec(piece) ?? [];
  if (low !== undefined && high !== undefined) return rangeOf(low, high);
  if (/^\d+-\d+$/.test(piece))
    throw new RangeError(
      `Cannot tell whether "${piece}" is one serial number or a range: write "${piece.replace('-', ' to ')}" for a range, or the serial number in quotes`,
    );
  return single(piece);
}

function counted(text: string): Serial {
  const serial = serialOf(text);
  if (!serial || serial.suffix !== '')
    throw new RangeError(
      `Cannot count from "${text.trim()}": a range needs serial numbers that end in digits`,
    );
  return serial;
}

function rangeOf(low: string, high: string): SerialRange {
  const [first, last] = [counted(low), counted(high)];
  const words = `${low.trim()} to ${high.trim()}`;
  if (first.prefix !== last.prefix)
    throw new RangeError(
      `Cannot use the range "${words}": its ends begin differently, so what lies between is not known; list the serial numbers`,
    );
  if (first.number > last.number)
    throw new RangeError(
      `Cannot use the range "${words}": it runs backwards; give the lower serial number first`,
    );
  return { prefix: first.prefix, from: first.number, to: last.number, suffix: '', words };
}

function single(text: string): SerialRange {
  const serial = serialOf(text);
  const words = text.trim();
  if (!serial)
    return {
      prefix: words.replaceAll(/\s+/g, '').toUpperCase(),
      from: 0,
      to: 0,
      suffix: '',
      words,
    };
  const { prefix, number, suffix } = serial;
  return { prefix, from: number, to: number, suffix, words };
}

/**
 * Whether a serial number lies within what a directive lists. Blanks, capitals and leading zeros make no difference. A serial
 * number of another form than those listed is not said to lie outside: a person has to look.
 *
 * @param ranges as `readSerials` gives them; none: every serial number
 * @example serialLies('1042', readSerials('1000 to 1100')).because // → 'serial 1042 lies within 1000 to 1100'
 */
export function serialLies(serial: string, ranges: readonly SerialRange[]): SerialAnswer {
  if (ranges.length === 0) return { lies: 'within', because: 'it names every serial number' };
  if (serial.trim() === '')
    return { lies: 'unclear', because: 'the serial number is not known here' };
  const own = serialOf(serial) ?? {
    ...{ prefix: serial.replaceAll(/\s+/g, '').toUpperCase(), number: 0, suffix: '' },
  };
  const said = `serial ${serial.trim()}`;
  const hit = ranges.find(
    ({ prefix, from, to, suffix }) =>
      prefix === own.prefix && suffix === own.suffix && own.number >= from && own.number <= to,
  );
  if (hit)
    return {
      lies: 'within',
      because: hit.from === hit.to ? `${said} is listed` : `${said} lies within ${hit.words}`,
    };
  const listed = ranges.map(({ words }) => words);
  const shown = `${listed.slice(0, 6).join(', ')}${listed.length > 6 ? ` and ${listed.length - 6} more` : ''}`;
  return ranges.some(({ prefix, suffix }) => prefix === own.prefix && suffix === own.suffix)
    ? { lies: 'outside', because: `${said} lies outside of ${shown}` }
    : { lies: 'unclear', because: `${said} is of another form than ${shown}: compare them` };
}

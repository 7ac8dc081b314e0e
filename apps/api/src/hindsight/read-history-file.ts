import { createHash } from 'node:crypto';
import { type ParsedHistory, parseHistory } from '@fairlead/labour';
import { Refused } from '../errors.ts';

/** A shop's file of past jobs, as it came. */
export interface HistoryFile {
  /** Its name, without the folders. */
  name: string;
  bytes: Uint8Array;
}

export interface ReadHistory extends ParsedHistory {
  name: string;
  sha256: string;
}

export const LARGEST_BYTES = 64 * 1024 * 1024;

/**
 * Reads a history file: its good rows, and everything that is wrong with the others.
 *
 * @param today ISO 8601 date in the shop's time zone
 * @throws Refused when it cannot be read as text at all: too large, or not UTF-8
 */
export function readHistoryFile({ name, bytes }: HistoryFile, today: string): ReadHistory {
  const sha256 = createHash('sha256').update(bytes).digest('hex');
  return { name, sha256, ...parseHistory(historyText({ name, bytes }), { today }) };
}

/** What a file begins with that is no text, and what it then is. */
const BEGINNINGS: readonly [hex: string, what: string][] = [
  ['504b0304', 'a spreadsheet’s own workbook, or another packed file'],
  ['d0cf11e0a1b11ae1', 'an older spreadsheet’s own workbook'],
  ['25504446', 'a PDF'],
  ['1f8b', 'a packed file'],
];

/**
 * The text of a history file. Cheap: nothing is parsed.
 *
 * @throws Refused when it is too large, or no text in UTF-8
 */
export function historyText({ name, bytes }: HistoryFile): string {
  if (bytes.length > LARGEST_BYTES)
    throw new Refused(
      'TOO_LARGE',
      `${name} has ${bytes.length} bytes; at most ${LARGEST_BYTES} are read at once. Cut it in two: each part with the header row.`,
    );
  const start = Buffer.from(bytes.subarray(0, 8)).toString('hex');
  const known = BEGINNINGS.find(([hex]) => start.startsWith(hex));
  if (known)
    throw new Refused(
      'BAD_INPUT',
      `${name} is ${known[1]}, whatever its name says. Open it and save it as CSV in UTF-8, with commas.`,
    );
  return textOf(name, bytes);
}

function textOf(name: string, bytes: Uint8Array): string {
  try {
    return new TextDecoder('utf-8', { fatal: true }).decode(bytes);
  } catch {
    const wide =
      (bytes[0] === 0xff && bytes[1] === 0xfe) || (bytes[0] === 0xfe && bytes[1] === 0xff);
    const where = wide
      ? 'it is UTF-16'
      : `line ${firstBadLine(bytes)} holds bytes that are no text`;
    throw new Refused(
      'BAD_INPUT',
      `${name} is not UTF-8: ${where}. Save it again as CSV in UTF-8.`,
    );
  }
}

/** The first line that is not UTF-8 by itself: a line feed is never part of a longer character. */
function firstBadLine(bytes: Uint8Array): number {
  const decoder = new TextDecoder('utf-8', { fatal: true });
  for (let line = 1, start = 0; start <= bytes.length; line += 1) {
    const end = bytes.indexOf(10, start);
    try {
      decoder.decode(bytes.subarray(start, end < 0 ? bytes.length : end));
    } catch {
      return line;
    }
    if (end < 0) break;
    start = end + 1;
  }
  return 1;
}

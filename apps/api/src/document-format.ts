import { Refused } from './errors.ts';

/** As much as a certificate needs that was photographed or scanned. */
export const MOST_DOCUMENT_BYTES = 10 * 1024 * 1024;

/** What is taken, with how its file ends on the disk. */
export const documentFormats = { 'application/pdf': 'pdf', 'image/jpeg': 'jpg' } as const;
export type DocumentMime = keyof typeof documentFormats;

/**
 * What a document is by its bytes, whatever its name or type says: a PDF begins with its version and names its end in its
 * last line (ISO 32000-1, 7.5.2 and 7.5.5; the header may stand within the first 1024 bytes, Annex H, note 13), a JPEG
 * begins with SOI and holds EOI (ITU-T T.81, B.1.1.3).
 *
 * @throws Refused where it is neither, or was cut short
 */
export function documentMime(bytes: Buffer): DocumentMime {
  if (bytes.length === 0)
    throw new Refused('BAD_INPUT', 'The document is empty: needed is a PDF or a photo as JPEG.');
  const jpeg = bytes.length >= 3 && bytes.readUIntBE(0, 3) === 0xffd8ff;
  const pdf = !jpeg && bytes.subarray(0, 1024).includes('%PDF-');
  if (!jpeg && !pdf)
    throw new Refused(
      'BAD_INPUT',
      'The document is neither a PDF nor a JPEG by its first bytes: needed is a PDF or a photo as JPEG.',
    );
  const whole = jpeg
    ? bytes.includes(Buffer.from([0xff, 0xd9]))
    : bytes.subarray(-1024).includes('%%EOF');
  if (!whole)
    throw new Refused(
      'BAD_INPUT',
      `The ${jpeg ? 'photo' : 'PDF'} has no end: it was cut short. Send it again, or take it again.`,
    );
  return jpeg ? 'image/jpeg' : 'application/pdf';
}

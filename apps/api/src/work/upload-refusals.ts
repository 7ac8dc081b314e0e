import { ERRORS } from '@tus/server';
import { notFound, Refused } from '../errors.ts';
import { MOST_BYTES } from './picture.ts';
import { diskRefusal, diskTakesNothing } from './upload-files.ts';

type Said = Error | { status_code: number; body: string };

const sentences = new Map<Said, () => Refused>([
  [ERRORS.FILE_NOT_FOUND, () => notFound('upload')],
  [ERRORS.FILE_NO_LONGER_EXISTS, () => notFound('upload')],
  [ERRORS.FILE_WRITE_ERROR, diskTakesNothing],
  [
    ERRORS.INVALID_OFFSET,
    () =>
      new Refused(
        'CONFLICT',
        'The bytes do not begin where the upload stands: ask with HEAD how many are here, and go on from there.',
      ),
  ],
  [
    ERRORS.MISSING_OFFSET,
    () =>
      new Refused(
        'BAD_INPUT',
        'The header Upload-Offset is missing: needed is the first byte sent.',
      ),
  ],
  [
    ERRORS.ERR_SIZE_EXCEEDED,
    () =>
      new Refused(
        'TOO_LARGE',
        'More bytes were sent than the upload was said to have: begin it again.',
      ),
  ],
  [
    ERRORS.ERR_MAX_SIZE_EXCEEDED,
    () =>
      new Refused(
        'TOO_LARGE',
        `A photo has at most ${MOST_BYTES / 1024 / 1024} MB; send it smaller.`,
      ),
  ],
  [
    ERRORS.ABORTED,
    () =>
      new Refused(
        'CONFLICT',
        'The same upload is sent by another request: ask with HEAD how far it is.',
      ),
  ],
  [
    ERRORS.ERR_LOCK_TIMEOUT,
    () => new Refused('UNAVAILABLE', 'The same upload is busy; try again in a few seconds.'),
  ],
]);

/** What the tus server throws, as a refusal where it is one. */
export function refusalOfUpload(error: Said): unknown {
  const known = sentences.get(error) ?? (error instanceof Error && diskRefusal(error));
  if (known) return typeof known === 'function' ? known() : known;
  // Notes about an upload that were cut short when the process died: it begins again.
  if (error instanceof SyntaxError) return notFound('upload');
  if (error instanceof Error) return error;
  return error.status_code < 500
    ? new Refused('BAD_INPUT', error.body.trim())
    : new Error(error.body);
}

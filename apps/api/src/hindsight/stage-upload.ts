import { allow, type Context } from '../context.ts';
import { Refused } from '../errors.ts';
import { holdFor } from '../hold.ts';
import { newId } from '../new-id.ts';
import { askJob } from './ask-job.ts';
import { type HistoryFile, historyText } from './read-history-file.ts';
import { uploadState } from './upload-state.ts';

const LONGEST_NAME = 120;

/** The name without folders and control characters; a file needs one to be known by. */
function nameOf(given: string): string {
  const name = (given.split(/[/\\]/).at(-1) ?? '').replace(/\p{C}/gu, '').trim();
  if (name === '' || name.length > LONGEST_NAME)
    throw new Refused(
      'BAD_INPUT',
      `The file's name has ${name.length} characters: needed are 1 to ${LONGEST_NAME}.`,
      'name',
    );
  return name;
}

/**
 * Lays a history file on the desk and has it read through. Nothing of it counts yet. One file at a
 * time: what is finished makes room by itself, what is not has to be put away first.
 *
 * @returns the key of the upload
 */
export async function stageUpload(context: Context, file: HistoryFile): Promise<string> {
  const { personId } = await allow(context, 'manager');
  const name = nameOf(file.name);
  if (file.bytes.length === 0)
    throw new Refused(
      'BAD_INPUT',
      `${name} is empty: needed are a header row and at least one job.`,
    );
  historyText({ name, bytes: file.bytes });

  return context.write(async (tx) => {
    // load
    await holdFor(tx, 'history desk', '');
    const lying = await tx.historyUpload.findFirst({
      omit: { content: true, refusedCsv: true },
      include: { uploadedBy: { select: { name: true } } },
    });

    // decide
    if (lying && !['taken_in', 'refused'].includes(uploadState(lying)))
      throw new Refused(
        'CONFLICT',
        `${lying.fileName} of ${lying.uploadedBy.name} lies on the desk already: import it or put it away, then choose ${name} again.`,
      );

    // save
    if (lying) await tx.historyUpload.delete({ where: { id: lying.id } });
    const id = newId();
    await tx.historyUpload.create({
      data: {
        id,
        fileName: name,
        size: file.bytes.length,
        content: new Uint8Array(file.bytes),
        uploadedById: personId,
      },
      select: { id: true },
    });
    await askJob(tx, 'read_history', { uploadId: id, personId });
    return id;
  });
}

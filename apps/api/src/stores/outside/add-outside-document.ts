import { allow, type Context } from '../../context.ts';
import { keptDocument } from '../../document-files.ts';
import { givenText } from '../../given.ts';
import { outsideForChange } from './outside-for-change.ts';

export interface AddOutsideDocumentInput {
  jobId: string;
  /** As the file was called on the device. */
  name: string;
  bytes: Buffer;
}

/** Keeps the release tag of something that another shop worked on, as it came. The same bytes sent again are the same document. */
export async function addOutsideDocument(
  context: Context,
  input: AddOutsideDocumentInput,
): Promise<string> {
  const { personId, shopId } = await allow(
    context,
    'mechanic',
    'inspector',
    'front_desk',
    'manager',
  );
  const name = givenText(input.name, 'name', { least: 1, most: 160 });
  const { sha256, mime, bytes } = await keptDocument(context, shopId, input.bytes);
  return context.write(async (tx) => {
    const job = await outsideForChange(tx, input.jobId);
    const known = await tx.outsideDocument.findFirst({
      where: { jobId: job.id, sha256 },
      select: { id: true },
    });
    if (known) return known.id;
    const { id } = await tx.outsideDocument.create({
      data: {
        ...{ jobId: job.id, sha256, mime, bytes, name },
        ...{ at: context.now(), byId: personId },
      },
      select: { id: true },
    });
    return id;
  });
}

import { AsyncLocalStorage } from 'node:async_hooks';
import { MemoryLocker, Metadata, Server, type Upload } from '@tus/server';
import type { Express, Request, Response } from 'express';
import { allow, type Context, createContext } from '../context.ts';
import { Refused } from '../errors.ts';
import { globalId } from '../ids.ts';
import { refuseForeignPage } from '../own-pages.ts';
import { clientId } from './limits.ts';
import type { PhotoParts } from './photo-routes.ts';
import { MOST_BYTES, tooLarge } from './picture.ts';
import { isRecorded, photoKey, recordUpload } from './record-upload.ts';
import { diskRefusal, openUploads, unfinishedOf } from './upload-files.ts';
import { refusalOfUpload } from './upload-refusals.ts';

const PATH = '/uploads';
const LONGEST_WORDS = 500;
const MOST_UNFINISHED = 60;
/** So small that it is through in two seconds at 1 Mbit/s. */
const MOST_PREVIEW_BYTES = 250_000;
const PHOTO_HEADER = 'fairlead-photo';

/** Who sends, and what: for the hooks of the tus server, which know the request alone. */
interface Sending {
  context: Context;
  shopId: string;
  personId: string;
  /** Made by the device; the last part of the upload's address. */
  uploadId: string;
}
const sending = new AsyncLocalStorage<Sending>();

const now = (): Sending => {
  const known = sending.getStore();
  if (!known) throw new TypeError('An upload is handled outside of a request.');
  return known;
};

/** The file's name begins with shop and person: whoever asks reaches their own uploads and no others. */
const prefixOf = ({ shopId, personId }: Sending) => `${shopId}_${personId}_`;
const fileOf = (mine: Sending) => `${prefixOf(mine)}${mine.uploadId}`;

/**
 * Photos come by the tus protocol 1.0.0 (tus.io/protocols/resumable-upload): `POST /uploads` with the metadata `id`,
 * a UUID that the device made, and `words`; `PATCH /uploads/:id` brings the bytes, `HEAD` tells how many are here,
 * `DELETE` gives up. With `previewOf`, the id of another upload, it is a small picture that stands for that photo until the
 * photo itself is here, and after that changes nothing. The answer to the last byte names the photo in the header `fairlead-photo`, and so does a later
 * `POST` of the same id. An empty `PATCH` at the end records what was not recorded before the process died.
 */
export function mountUploads(app: Express, { client, viewerOf, uploadsDir }: PhotoParts): void {
  let opened: Promise<Server> | null = null;
  const open = () => {
    opened ??= serve(uploadsDir).catch((error: unknown) => {
      opened = null;
      throw error;
    });
    return opened;
  };

  const handle = async (request: Request, response: Response) => {
    response.set({ 'tus-resumable': '1.0.0', 'cache-control': 'no-store' });
    const context = createContext({ client, viewer: await viewerOf(request), uploadsDir });
    try {
      refuseForeignPage(request, 'A photo');
      const viewer = await allow(context, 'mechanic', 'inspector', 'front_desk', 'manager');
      const begun = request.method === 'POST' ? givenUpload(request) : null;
      const uploadId =
        begun?.id ?? clientId(String(request.params['id']), 'The address of an upload');
      const id = photoKey(viewer, begun?.previewOf ?? uploadId);
      const recorded =
        begun !== null && (await isRecorded(context, { id, preview: begun.previewOf !== null }));
      // Bytes come slowly: nothing of the database is held meanwhile.
      await context.close();
      if (recorded)
        return void response
          .status(201)
          .set({
            location: `${PATH}/${uploadId}`,
            'upload-offset': request.get('upload-length') ?? '0',
            [PHOTO_HEADER]: globalId('Photo', id),
          })
          .end();
      const tus = await open();
      await sending.run({ context, ...viewer, uploadId }, () => tus.handle(request, response));
    } catch (error) {
      // Bytes that nobody reads any more would hold up the next request on the same line.
      if (!request.complete) response.set('connection', 'close');
      request.resume();
      throw diskRefusal(error) ?? error;
    } finally {
      await context.close();
    }
  };
  app.post(PATH, handle);
  app.route(`${PATH}/:id`).head(handle).patch(handle).delete(handle);
}

async function serve(uploadsDir: string): Promise<Server> {
  const store = await openUploads(uploadsDir);
  return new Server({
    path: PATH,
    datastore: store,
    locker: new MemoryLocker(),
    // As long as a line that broke unnoticed may hold up the one that goes on for it.
    lockDrainTimeout: 1000,
    maxSize: MOST_BYTES,
    relativeLocation: true,
    allowedOrigins: () => false,
    namingFunction: () => fileOf(now()),
    getFileIdFromRequest: () => fileOf(now()),
    generateUrl: (_request, { path }) => `${path}/${now().uploadId}`,
    async onUploadCreate(_request, { id }) {
      const begun = await store.getUpload(id).catch(() => null);
      if (begun)
        throw new Refused(
          'CONFLICT',
          `This upload has begun already, ${begun.offset} of ${begun.size} bytes are here: ask for it with HEAD and go on from there.`,
        );
      if ((await unfinishedOf(uploadsDir, prefixOf(now()))) >= MOST_UNFINISHED)
        throw new Refused(
          'AGAINST_RULE',
          `You have ${MOST_UNFINISHED} photos that are sent in part: finish or give up some of them first.`,
        );
      return {};
    },
    async onUploadFinish(_request, upload) {
      const { context, uploadId, ...viewer } = now();
      const previewOf = upload.metadata?.['previewOf']?.toLowerCase();
      const id = photoKey(viewer, previewOf ?? uploadId);
      try {
        await recordUpload(context, {
          file: fileIn(upload),
          id,
          shopId: viewer.shopId,
          words: upload.metadata?.['words'] ?? '',
          addedById: viewer.personId,
          preview: previewOf !== undefined,
        });
      } catch (error) {
        // What can never become a photo does not wait for the sweep.
        if (error instanceof Refused && error.code !== 'UNAVAILABLE') await give(upload.id);
        throw error;
      }
      await give(upload.id);
      return { headers: { [PHOTO_HEADER]: globalId('Photo', id) } };
    },
    // Thrown on, so that a refusal goes out in the form of every other.
    onResponseError(_request, error) {
      throw refusalOfUpload(error);
    },
  });

  function give(id: string): Promise<void> {
    return store.remove(id).catch(() => undefined);
  }
}

const fileIn = ({ storage }: Upload) => {
  if (!storage) throw new TypeError('An upload without a file.');
  return storage.path;
};

/** What a creation says of itself, looked at before anything is made. Returns the device's ids. */
function givenUpload(request: Request): { id: string; previewOf: string | null } {
  const length = request.get('upload-length') ?? '';
  if (!/^\d{1,12}$/.test(length))
    throw new Refused(
      'BAD_INPUT',
      `The header Upload-Length is "${length.slice(0, 40)}": needed is how many bytes the photo has.`,
    );
  if (Number(length) > MOST_BYTES) throw tooLarge(Number(length));
  const { id, words, previewOf } = metadataOf(request.get('upload-metadata') ?? '');
  if ((words ?? '').length > LONGEST_WORDS || (words ?? '').includes('\0'))
    throw new Refused(
      'BAD_INPUT',
      `The words to a photo have ${(words ?? '').length} characters: they are one text of at most ${LONGEST_WORDS}.`,
      'words',
    );
  const given = clientId(id ?? '', 'The id in Upload-Metadata');
  if (previewOf === undefined) return { id: given, previewOf: null };
  if (Number(length) > MOST_PREVIEW_BYTES)
    throw new Refused(
      'TOO_LARGE',
      `The preview has ${length} bytes; at most ${MOST_PREVIEW_BYTES} are taken. Send the photo itself.`,
    );
  const photo = clientId(previewOf ?? '', 'The previewOf in Upload-Metadata');
  if (photo === given)
    throw new Refused(
      'BAD_INPUT',
      'The preview goes under the id of its photo: needed is an id of its own, and the photo’s in previewOf.',
      'previewOf',
    );
  return { id: given, previewOf: photo };
}

function metadataOf(given: string): Record<string, string | null> {
  try {
    return Metadata.parse(given);
  } catch {
    throw new Refused(
      'BAD_INPUT',
      `The header Upload-Metadata is "${given.slice(0, 60)}": needed are id and words, each followed by its value in base64.`,
    );
  }
}

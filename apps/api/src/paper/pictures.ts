import { readFile } from 'node:fs/promises';
import path from 'node:path';
import sharp from 'sharp';
import type { Context } from '../context.ts';
import { keyOf } from '../ids.ts';
import { markingsSelect, marksOf, type PhotoMark, photoFile } from '../work/index.ts';
import { drawMarks } from './photo-marks.ts';
import type { DrawingSheet } from './sheet.ts';

/** A photo of a document: what it shows, and its bytes; null where its file is not to be had. */
export interface Picture {
  caption: string;
  /** What it shows, for those who cannot see it. */
  alt: string;
  jpeg: { bytes: Buffer; width: number; height: number } | null;
  marks: readonly PhotoMark[];
  after?: true;
}

/** Where a photo is kept, and what was marked over it. */
export interface KeptPhoto {
  file: string;
  marks: readonly PhotoMark[];
}

export interface PictureWanted {
  id: string;
  caption: string;
  alt: string;
  /** It stands in one row with the one that precedes it: the same, before the correction. */
  after?: true;
}

/** What a paper asks of a finding's photos. */
export const FINDING_PHOTOS = 'photos { id words } photoPairs { beforeId afterId }';
export interface FindingPhotos {
  number: number;
  title: string;
  photos: { id: string; words: string }[];
  photoPairs: { beforeId: string; afterId: string }[];
}

/** The photos of a finding as they are printed: each of before followed by what it looks like after the correction. */
export function photosOfFinding({
  number,
  title,
  photos,
  photoPairs,
}: FindingPhotos): PictureWanted[] {
  const afters = new Map(photoPairs.map(({ beforeId, afterId }) => [afterId, beforeId]));
  const wanted = (
    { id, words }: FindingPhotos['photos'][number],
    when: '' | ', before' | ', after',
  ): PictureWanted => ({
    id,
    caption: `Finding ${number}${when}${words === '' ? '' : ` · ${words}`}`,
    alt: `${words === '' ? `Photo of finding ${number}: ${title}` : words}${when}`,
    ...(when === ', after' && { after: true }),
  });
  return photos
    .filter(({ id }) => !afters.has(id))
    .flatMap((photo) => {
      const own = photos.filter(({ id }) => afters.get(id) === photo.id);
      return own.length === 0
        ? [wanted(photo, '')]
        : [wanted(photo, ', before'), ...own.map((each) => wanted(each, ', after'))];
    });
}

/**
 * Rows of photos; one of after the correction stands beside the one of before as far as a row goes.
 *
 * @example inRows([{ id: 1 }, { id: 2 }, { id: 3 }, { id: 4, after: true }], 3) // → [[{ id: 1 }, { id: 2 }], [{ id: 3 }, { id: 4, after: true }]]
 */
export function inRows<Each extends { after?: true }>(
  pictures: readonly Each[],
  across: number,
): Each[][] {
  const rows: Each[][] = [];
  for (const [index, picture] of pictures.entries()) {
    const row = rows.at(-1);
    // As many as have to stay together from here on.
    const more = pictures.slice(index + 1).findIndex(({ after }) => after !== true);
    const together = picture.after
      ? 1
      : Math.min(across, 1 + (more < 0 ? pictures.length - index - 1 : more));
    if (row !== undefined && row.length + together <= across) row.push(picture);
    else rows.push([picture]);
  }
  return rows;
}

/** As many pixels as 60 mm need at 300 dots an inch, and some. */
const LONGEST = 800;

/** The files behind photos, one statement for all of them. Reads the database: before its transaction ends. */
export async function photoFilesOf({ read }: Context, wanted: readonly PictureWanted[]) {
  if (wanted.length === 0) return new Map<string, KeptPhoto>();
  const rows = await read.photo.findMany({
    where: { id: { in: wanted.map(({ id }) => keyOf('Photo', id, 'id')) } },
    select: { id: true, shopId: true, sha256: true, markings: markingsSelect },
  });
  return new Map(
    rows.map(({ id, shopId, sha256, markings }): [string, KeptPhoto] => [
      id,
      { file: photoFile(shopId, sha256, 'large'), marks: marksOf(markings) },
    ]),
  );
}

/** Photos in the size in which they are printed. */
export function loadPictures(
  uploadsDir: string,
  files: ReadonlyMap<string, KeptPhoto>,
  wanted: readonly PictureWanted[],
): Promise<Picture[]> {
  return Promise.all(
    wanted.map(async ({ id, ...said }): Promise<Picture> => {
      const photo = files.get(keyOf('Photo', id, 'id'));
      const kept = photo && (await readFile(path.join(uploadsDir, photo.file)).catch(() => null));
      const marks = photo?.marks ?? [];
      if (!kept) return { ...said, jpeg: null, marks };
      const { data, info } = await sharp(kept)
        .resize({ width: LONGEST, height: LONGEST, fit: 'inside', withoutEnlargement: true })
        .jpeg({ quality: 80 })
        .toBuffer({ resolveWithObject: true });
      return { ...said, jpeg: { bytes: data, width: info.width, height: info.height }, marks };
    }),
  );
}

const ACROSS = 3;
const SHAPE = 3 / 4;

/** Photos up to three in a row, each with its caption and its words for the ear. */
export function drawPictures(sheet: DrawingSheet, pictures: readonly Picture[]): void {
  const { type } = sheet;
  const gap = type.body;
  const width = (sheet.width - gap * (ACROSS - 1)) / ACROSS;
  const look = { size: type.small };
  for (const together of inRows(pictures, ACROSS)) {
    const row = together.map((picture) => ({
      ...picture,
      lines: sheet.wrap(picture.caption, width, look),
      high: picture.jpeg
        ? Math.min(width * SHAPE, (width * picture.jpeg.height) / picture.jpeg.width)
        : width * SHAPE,
    }));
    const high = Math.max(...row.map((picture) => picture.high));
    const words = Math.max(...row.map(({ lines }) => lines.length)) * sheet.lineHeight(look);
    sheet.need(high + words + type.body * 1.5);
    for (const [index, { jpeg, alt, marks, lines }] of row.entries()) {
      const x = sheet.left + index * (width + gap);
      const { y } = sheet;
      sheet.tag(
        sheet.root,
        'Figure',
        (doc) => {
          doc.lineWidth(0.5);
          if (!jpeg) {
            doc.rect(x, y, width, high).stroke('black');
            sheet.write('The file of this photo is missing.', y + type.body, {
              x: x + type.body,
              ...look,
            });
            return;
          }
          const scale = Math.min(width / jpeg.width, high / jpeg.height);
          const [w, h] = [jpeg.width * scale, jpeg.height * scale];
          doc.image(jpeg.bytes, x, y, { width: w, height: h });
          drawMarks(doc, marks, { x, y, width: w, height: h });
          for (const mark of marks) {
            if (mark.kind !== 'note') continue;
            const at = { x: x + (mark.x * w) / 1000, y: y + (mark.y * h) / 1000 };
            const wide = sheet.measure(mark.words, look);
            const line = sheet.lineHeight(look);
            // Its words stay on the photo, on a white ground.
            const left = Math.max(x, Math.min(at.x, x + w - wide));
            const top = Math.max(y, Math.min(at.y - line, y + h - line));
            doc.rect(left, top, wide, line).fill('white').fillColor('black');
            sheet.write(mark.words, top, { ...look, x: left });
          }
          doc.rect(x, y, w, h).stroke('black');
        },
        { alt, bbox: [x, y, x + width, y + high] },
      );
      sheet.tag(sheet.root, 'P', () => {
        for (const [at, line] of lines.entries()) {
          sheet.write(line, y + high + type.small * 0.5 + at * sheet.lineHeight(look), {
            ...look,
            x,
            width,
          });
        }
      });
    }
    sheet.y += high + words + type.body * 1.5;
  }
}

import { readFile } from 'node:fs/promises';
import path from 'node:path';
import sharp from 'sharp';
import type { Context } from '../context.ts';
import { keyOf } from '../ids.ts';
import { photoFile } from '../work/queries.ts';
import type { DrawingSheet } from './sheet.ts';

/** A photo of a document: what it shows, and its bytes; null where its file is not to be had. */
export interface Picture {
  caption: string;
  /** What it shows, for those who cannot see it. */
  alt: string;
  jpeg: { bytes: Buffer; width: number; height: number } | null;
}

export interface PictureWanted {
  id: string;
  caption: string;
  alt: string;
}

/** As many pixels as 60 mm need at 300 dots an inch, and some. */
const LONGEST = 800;

/** The files behind photos, one statement for all of them. Reads the database: before its transaction ends. */
export async function photoFilesOf({ read }: Context, wanted: readonly PictureWanted[]) {
  if (wanted.length === 0) return new Map<string, string>();
  const rows = await read.photo.findMany({
    where: { id: { in: wanted.map(({ id }) => keyOf('Photo', id, 'id')) } },
    select: { id: true, shopId: true, sha256: true },
  });
  return new Map(rows.map(({ id, shopId, sha256 }) => [id, photoFile(shopId, sha256, 'large')]));
}

/** Photos in the size in which they are printed. */
export function loadPictures(
  uploadsDir: string,
  files: ReadonlyMap<string, string>,
  wanted: readonly PictureWanted[],
): Promise<Picture[]> {
  return Promise.all(
    wanted.map(async ({ id, caption, alt }): Promise<Picture> => {
      const file = files.get(keyOf('Photo', id, 'id'));
      const kept = file && (await readFile(path.join(uploadsDir, file)).catch(() => null));
      if (!kept) return { caption, alt, jpeg: null };
      const { data, info } = await sharp(kept)
        .resize({ width: LONGEST, height: LONGEST, fit: 'inside', withoutEnlargement: true })
        .jpeg({ quality: 80 })
        .toBuffer({ resolveWithObject: true });
      return { caption, alt, jpeg: { bytes: data, width: info.width, height: info.height } };
    }),
  );
}

const ACROSS = 3;
const SHAPE = 3 / 4;

/** Photos three in a row, each with its caption and its words for the ear. */
export function drawPictures(sheet: DrawingSheet, pictures: readonly Picture[]): void {
  const { type } = sheet;
  const gap = type.body;
  const width = (sheet.width - gap * (ACROSS - 1)) / ACROSS;
  const look = { size: type.small };
  for (let from = 0; from < pictures.length; from += ACROSS) {
    const row = pictures.slice(from, from + ACROSS).map((picture) => ({
      ...picture,
      lines: sheet.wrap(picture.caption, width, look),
      high: picture.jpeg
        ? Math.min(width * SHAPE, (width * picture.jpeg.height) / picture.jpeg.width)
        : width * SHAPE,
    }));
    const high = Math.max(...row.map((picture) => picture.high));
    const words = Math.max(...row.map(({ lines }) => lines.length)) * sheet.lineHeight(look);
    sheet.need(high + words + type.body * 1.5);
    for (const [index, { jpeg, alt, lines }] of row.entries()) {
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

import { createHash } from 'node:crypto';
import sharp, { type Sharp } from 'sharp';
import { Refused } from '../errors.ts';
import { decodeHeic } from './heic.ts';
import { formatOf, looksLike } from './picture-format.ts';

// libvips can read dozens of formats, scripts and documents among them. Three are let through; HEIC has a decoder of
// its own, because the library that sharp brings has none for it.
sharp.block({ operation: ['VipsForeignLoad'] });
sharp.unblock({
  operation: ['VipsForeignLoadJpegBuffer', 'VipsForeignLoadPngBuffer', 'VipsForeignLoadWebpBuffer'],
});
// Nothing is decoded twice, so a cache of decoded pictures would only hold memory.
sharp.cache(false);

/** The sizes that are kept; the longer side, in pixels. Smaller pictures are never blown up. */
export const photoSizes = { original: 2400, large: 1600, middle: 800, thumb: 320 } as const;
export type PhotoSize = keyof typeof photoSizes;

export const MOST_BYTES = 25 * 1024 * 1024;
const MOST_PIXELS = 64_000_000;
const SECONDS = 20;

/** A picture as it is kept: re-encoded, the right way up, without place, camera or time. */
export interface Picture {
  /** SHA-256 of the kept original, hexadecimal. */
  sha256: string;
  mime: 'image/jpeg';
  width: number;
  height: number;
  bytes: number;
  files: Record<PhotoSize, Buffer>;
}

const needed = 'needed is a photo as JPEG, PNG, WebP or HEIC';

const megabytes = (bytes: number) => Math.ceil((bytes / 1024 / 1024) * 10) / 10;
export const tooLarge = (bytes: number) =>
  new Refused(
    'TOO_LARGE',
    `The photo has ${megabytes(bytes)} MB; at most ${megabytes(MOST_BYTES)} MB are taken. Send it smaller.`,
  );
const tooManyPixels = (width: number, height: number) =>
  new Refused(
    'TOO_LARGE',
    `The picture has ${width} × ${height} pixels; at most ${MOST_PIXELS / 1e6} million are taken. Send it smaller.`,
  );
const damaged = () =>
  new Refused(
    'BAD_INPUT',
    'The picture cannot be read to its end: the file is damaged or was cut short. Send it again, or take it again.',
  );

/**
 * Reads a picture from somebody's phone and makes the four sizes that are kept.
 *
 * @param bytes the file as it came, at most 25 MB and 64 million pixels
 * @throws Refused when it is not wholly a JPEG, PNG, WebP or HEIC picture
 */
export async function readPicture(bytes: Buffer): Promise<Picture> {
  if (bytes.length === 0) throw new Refused('BAD_INPUT', `The file is empty; ${needed}.`);
  const format = formatOf(bytes);
  if (!format)
    throw new Refused(
      'BAD_INPUT',
      `The file is ${looksLike(bytes) ?? 'not a picture that can be read here'}; ${needed}.`,
    );

  try {
    const source = format === 'heic' ? await fromHeic(bytes) : await fromBytes(bytes);
    const { data, info } = await sized(source, photoSizes.original, 86);
    const large = await sized(sharp(data), photoSizes.large, 82);
    const middle = await sized(sharp(large.data), photoSizes.middle, 80);
    const thumb = await sized(sharp(middle.data), photoSizes.thumb, 78);
    return {
      sha256: createHash('sha256').update(data).digest('hex'),
      mime: 'image/jpeg',
      width: info.width,
      height: info.height,
      bytes: data.length,
      files: { original: data, large: large.data, middle: middle.data, thumb: thumb.data },
    };
  } catch (error) {
    throw error instanceof Refused ? error : damaged();
  }
}

/** Opened by libvips, the right way up, after a look at its head says how large it will be. */
async function fromBytes(bytes: Buffer): Promise<Sharp> {
  const { width, height } = await sharp(bytes, { limitInputPixels: false }).metadata();
  if (width * height > MOST_PIXELS) throw tooManyPixels(width, height);
  return sharp(bytes, { failOn: 'warning', limitInputPixels: MOST_PIXELS, autoOrient: true });
}

async function fromHeic(bytes: Buffer): Promise<Sharp> {
  const decoded = await decodeHeic(bytes, MOST_PIXELS);
  if (!decoded) throw damaged();
  const { width, height, pixels } = decoded;
  if (!pixels) throw tooManyPixels(width, height);
  return sharp(pixels, { raw: { width, height, channels: 4 } });
}

/** JPEG, because entries and invoices that carry pictures are PDFs; what was clear becomes white paper. */
const sized = (picture: Sharp, longest: number, quality: number) =>
  picture
    .timeout({ seconds: SECONDS })
    .resize({ width: longest, height: longest, fit: 'inside', withoutEnlargement: true })
    .flatten({ background: '#ffffff' })
    .toColourspace('srgb')
    .jpeg({ quality, progressive: true })
    .toBuffer({ resolveWithObject: true });

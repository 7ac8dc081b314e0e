import { createHash } from 'node:crypto';
import sharp, { type Sharp } from 'sharp';
import { Refused } from '../errors.ts';

// libvips can read dozens of formats, scripts and documents among them. Three are let through.
sharp.block({ operation: ['VipsForeignLoad'] });
sharp.unblock({
  operation: ['VipsForeignLoadJpegBuffer', 'VipsForeignLoadPngBuffer', 'VipsForeignLoadWebpBuffer'],
});
// Nothing is decoded twice, so a cache of decoded pictures would only hold memory.
sharp.cache(false);

/** The sizes that are kept; the longer side, in pixels. Smaller pictures are never blown up. */
export const photoSizes = { original: 2400, large: 1600, thumb: 320 } as const;
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

const needed = 'needed is a photo as JPEG, PNG or WebP';

/** What the first bytes say that a file is, whatever its name or type says. */
function formatOf(bytes: Buffer): 'jpeg' | 'png' | 'webp' | 'heif' | null {
  if (bytes.length >= 3 && bytes.readUIntBE(0, 3) === 0xffd8ff) return 'jpeg';
  if (bytes.subarray(0, 8).toString('latin1') === '\x89PNG\r\n\x1a\n') return 'png';
  const [first, second] = [bytes.toString('latin1', 0, 4), bytes.toString('latin1', 8, 12)];
  if (first === 'RIFF' && second === 'WEBP') return 'webp';
  const brand = bytes.toString('latin1', 4, 8) === 'ftyp' ? second : '';
  return /^(hei[cxms]|hev[cxms]|mif1|msf1|avi[fs])$/.test(brand) ? 'heif' : null;
}

/**
 * Reads a picture from somebody's phone and makes the three sizes that are kept.
 *
 * @param bytes the file as it came, at most 25 MB and 64 million pixels
 * @throws Refused when it is not wholly a JPEG, PNG or WebP picture
 */
export async function readPicture(bytes: Buffer): Promise<Picture> {
  if (bytes.length === 0) throw new Refused('BAD_INPUT', `The file is empty; ${needed}.`);
  const format = formatOf(bytes);
  if (format === 'heif')
    throw new Refused(
      'BAD_INPUT',
      `This photo is in HEIC or AVIF, which cannot be read here; ${needed}. Set the phone’s camera to JPEG (“most compatible”), or send a screenshot of it.`,
    );
  if (!format)
    throw new Refused('BAD_INPUT', `The file is not a picture that can be read here; ${needed}.`);

  const source = { failOn: 'warning', limitInputPixels: MOST_PIXELS, autoOrient: true } as const;
  try {
    const { width, height } = await sharp(bytes, { ...source, limitInputPixels: false }).metadata();
    if (width * height > MOST_PIXELS)
      throw new Refused(
        'TOO_LARGE',
        `The picture has ${width} × ${height} pixels; at most 64 million are taken. Send it smaller.`,
      );
    const { data, info } = await sized(sharp(bytes, source), photoSizes.original, 86);
    const large = await sized(sharp(data), photoSizes.large, 82);
    const thumb = await sized(sharp(large.data), photoSizes.thumb, 78);
    return {
      sha256: createHash('sha256').update(data).digest('hex'),
      mime: 'image/jpeg',
      width: info.width,
      height: info.height,
      bytes: data.length,
      files: { original: data, large: large.data, thumb: thumb.data },
    };
  } catch (error) {
    if (error instanceof Refused) throw error;
    throw new Refused(
      'BAD_INPUT',
      'The picture cannot be read to its end: the file is damaged or was cut short. Send it again, or take it again.',
    );
  }
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

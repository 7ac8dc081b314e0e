/** As much as a preview may have: two seconds at 1 Mbit/s. The shop refuses more. */
export const MOST_PREVIEW_BYTES = 250_000;

/** The longer side in pixels and the quality of the JPEG, from the best on: the first that is small enough is taken. */
const STEPS = [
  [1600, 0.8],
  [1600, 0.65],
  [1600, 0.5],
  [1280, 0.5],
  [960, 0.5],
  [640, 0.5],
  [480, 0.4],
] as const;

/** A picture as it was decoded, the right way up. */
export interface Decoded {
  width: number;
  height: number;
  /** Drawn that large, as JPEG; null where the browser makes none. */
  drawn(width: number, height: number, quality: number): Promise<Blob | null>;
  close(): void;
}

/**
 * A small picture of a photo, to go before it. The photo itself is untouched.
 *
 * @param decode how this browser reads it; rejects where it cannot, as with HEIC in most
 * @returns null where it needs none or none can be made: the photo then goes alone
 */
export async function makePreview(
  photo: Blob,
  decode: (photo: Blob) => Promise<Decoded> = decodeHere,
): Promise<Blob | null> {
  if (photo.size <= MOST_PREVIEW_BYTES) return null;
  const picture = await decode(photo).catch(() => null);
  if (picture === null) return null;
  try {
    const { width, height } = picture;
    for (const [longest, quality] of STEPS) {
      const scale = Math.min(1, longest / Math.max(width, height));
      const side = (pixels: number) => Math.max(1, Math.round(pixels * scale));
      const made = await picture.drawn(side(width), side(height), quality);
      if (made === null) return null;
      if (made.size <= MOST_PREVIEW_BYTES) return made;
    }
    return null;
  } catch {
    return null;
  } finally {
    picture.close();
  }
}

async function decodeHere(photo: Blob): Promise<Decoded> {
  const bitmap = await createImageBitmap(photo, { imageOrientation: 'from-image' });
  return {
    width: bitmap.width,
    height: bitmap.height,
    drawn: (width, height, quality) => jpegOf(bitmap, { width, height, quality }),
    close: () => bitmap.close(),
  };
}

async function jpegOf(
  bitmap: ImageBitmap,
  { width, height, quality }: { width: number; height: number; quality: number },
): Promise<Blob | null> {
  const type = 'image/jpeg';
  if (typeof OffscreenCanvas !== 'undefined') {
    const canvas = new OffscreenCanvas(width, height);
    canvas.getContext('2d')?.drawImage(bitmap, 0, 0, width, height);
    return canvas.convertToBlob({ type, quality });
  }
  const canvas = Object.assign(document.createElement('canvas'), { width, height });
  canvas.getContext('2d')?.drawImage(bitmap, 0, 0, width, height);
  return new Promise((resolve) => canvas.toBlob(resolve, type, quality));
}

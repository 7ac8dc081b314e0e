/** As much as the shop takes of one photo. */
export const MOST_BYTES = 25 * 1024 * 1024;

const MB = 1024 * 1024;
/** In steps that a reader can tell apart: whole megabytes from three on, kilobytes below one. */
const inMegabytes = (bytes: number) =>
  bytes < 3 * MB ? (Math.round((bytes / MB) * 10) / 10).toFixed(1) : String(Math.round(bytes / MB));

/**
 * How large a photo is.
 *
 * @param bytes at least 0
 * @example sizeWords(8_400_000) // → '8 MB'
 */
export function sizeWords(bytes: number): string {
  return bytes < MB ? `${Math.ceil(bytes / 1024)} kB` : `${inMegabytes(bytes)} MB`;
}

/**
 * How much of a photo the shop has, in the photo's own unit.
 *
 * @param sent bytes, at most `size`; undefined where this page has not heard yet
 * @example sentWords(3_200_000, 8_400_000) // → '3 of 8 MB sent'
 */
export function sentWords(sent: number | undefined, size: number): string {
  if (sent === undefined || sent === 0) return `${sizeWords(size)}, nothing sent yet`;
  if (size < MB) return `${Math.floor(sent / 1024)} of ${sizeWords(size)} sent`;
  const part =
    size < 3 * MB ? (Math.floor((sent / MB) * 10) / 10).toFixed(1) : Math.floor(sent / MB);
  return `${part} of ${sizeWords(size)} sent`;
}

/** Said before anything is sent: the shop would refuse it. */
export const tooLargeWords = ({ name, size }: { name: string; size: number }): string =>
  `${name} has ${sizeWords(size)}; at most ${sizeWords(MOST_BYTES)} are taken. Take it smaller.`;

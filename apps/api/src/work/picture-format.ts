/** What a file is by its first bytes, whatever its name or type says. */
export type PictureFormat = 'jpeg' | 'png' | 'webp' | 'heic';

const ascii = (bytes: Buffer, from: number, to: number) => bytes.toString('latin1', from, to);

/** The format of a picture that is taken, or null. */
export function formatOf(bytes: Buffer): PictureFormat | null {
  if (bytes.length >= 3 && bytes.readUIntBE(0, 3) === 0xffd8ff) return 'jpeg';
  if (ascii(bytes, 0, 8) === '\x89PNG\r\n\x1a\n') return 'png';
  if (ascii(bytes, 0, 4) === 'RIFF' && ascii(bytes, 8, 12) === 'WEBP') return 'webp';
  return ascii(bytes, 4, 8) === 'ftyp' && /^(hei[cx]|hev[cx]|mif1|msf1)$/.test(ascii(bytes, 8, 12))
    ? 'heic'
    : null;
}

const others: [RegExp, string][] = [
  [/^GIF8/, 'a GIF'],
  [/^%PDF/, 'a PDF'],
  [/^PK/, 'a ZIP archive, or a document that is one inside'],
  [/^(II\*\0|MM\0\*)/, 'a TIFF or a raw picture'],
  [/^BM/, 'a BMP'],
  [/^....ftypavi[fs]/s, 'in AVIF'],
  [/^....ftyp/s, 'a film'],
  [/^(MZ|.ELF)/s, 'a program'],
  [/^(\xef\xbb\xbf)?\s*<(\?xml[\s\S]*<svg|!doctype svg|svg)/i, 'an SVG drawing'],
  [/^(\xef\xbb\xbf)?\s*<(!doctype html|html|\?xml|script)/i, 'a web page'],
];

/** What a file that is not taken looks like, in words; null where nothing is known. */
export function looksLike(bytes: Buffer): string | null {
  const head = ascii(bytes, 0, 512);
  return others.find(([begins]) => begins.test(head))?.[1] ?? null;
}

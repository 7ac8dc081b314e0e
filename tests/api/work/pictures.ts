import sharp from 'sharp';

export type Colour = 'red' | 'green' | 'blue' | 'yellow';
const rgb: Record<Colour, [number, number, number]> = {
  red: [224, 32, 32],
  green: [32, 192, 32],
  blue: [32, 32, 224],
  yellow: [224, 224, 32],
};

/** Which of the four colours is nearest to a pixel. */
const nearest = (pixel: readonly number[]): Colour => {
  const far = (colour: Colour) =>
    rgb[colour].reduce((sum, value, at) => sum + (value - (pixel[at] ?? 0)) ** 2, 0);
  return (Object.keys(rgb) as Colour[]).reduce((best, one) => (far(one) < far(best) ? one : best));
};

const sceneAt = (x: number, y: number, width: number, height: number): Colour =>
  y < height / 2 ? (x < width / 2 ? 'red' : 'green') : x < width / 2 ? 'blue' : 'yellow';

/**
 * A scene with red, green, blue and yellow in its corners, as a camera held in one of eight ways writes it. Which edge
 * of the scene the first row and the first column of the file are: Exif 2.32, tag 274.
 */
export async function taken(orientation: number, width = 240, height = 160): Promise<Buffer> {
  const swapped = orientation >= 5;
  const [columns, rows] = swapped ? [height, width] : [width, height];
  const pixels = Buffer.alloc(columns * rows * 3);
  const rowFromEnd = [3, 4, 6, 7].includes(orientation);
  const columnFromEnd = [2, 3, 7, 8].includes(orientation);
  for (let row = 0; row < rows; row += 1)
    for (let column = 0; column < columns; column += 1) {
      const along = rowFromEnd ? rows - 1 - row : row;
      const across = columnFromEnd ? columns - 1 - column : column;
      const colour = swapped
        ? sceneAt(along, across, width, height)
        : sceneAt(across, along, width, height);
      pixels.set(rgb[colour], (row * columns + column) * 3);
    }
  return sharp(pixels, { raw: { width: columns, height: rows, channels: 3 } })
    .withMetadata({ orientation })
    .jpeg({ quality: 95, chromaSubsampling: '4:4:4' })
    .toBuffer();
}

/** The colours in the corners of a picture: above left, above right, below left, below right. */
export async function corners(bytes: Buffer): Promise<Colour[]> {
  const { data, info } = await sharp(bytes)
    .removeAlpha()
    .raw()
    .toBuffer({ resolveWithObject: true });
  const at = (x: number, y: number) => {
    const from = (Math.floor(y * info.height) * info.width + Math.floor(x * info.width)) * 3;
    return nearest([...data.subarray(from, from + 3)]);
  };
  return [at(0.2, 0.2), at(0.8, 0.2), at(0.2, 0.8), at(0.8, 0.8)];
}

/** What a JPEG carries besides the picture: the names of its segments up to the scan, without tables and frame. */
export function carried(bytes: Buffer): string[] {
  const found: string[] = [];
  for (let at = 2; at + 4 <= bytes.length && bytes[at] === 0xff; ) {
    const marker = bytes[at + 1] ?? 0;
    if (marker === 0xda) return found;
    const length = bytes.readUInt16BE(at + 2);
    const name = /^[\w:/.-]+/.exec(bytes.toString('latin1', at + 4, at + 2 + length))?.[0] ?? '';
    if (marker >= 0xe0 && marker <= 0xef) found.push(`APP${marker - 0xe0} ${name}`);
    if (marker === 0xfe) found.push('comment');
    at += 2 + length;
  }
  throw new RangeError('No scan found in the JPEG.');
}

/** Where it was taken, by what and for whom: in Exif, XMP and IPTC, as telephones and editors write it. */
export const located = (picture: ReturnType<typeof sharp>) =>
  picture
    .withExifMerge({
      IFD0: { Make: 'Test camera', Copyright: 'Test owner' },
      IFD3: {
        GPSLatitudeRef: 'N',
        GPSLatitude: '50/1 7/1 3/1',
        GPSLongitudeRef: 'W',
        GPSLongitude: '5/1 28/1 40/1',
      },
    })
    .withXmp(
      '<?xpacket begin="" id="W5M0MpCehiHzreSzNTczkc9d"?><x:xmpmeta xmlns:x="adobe:ns:meta/"><rdf:RDF xmlns:rdf="http://www.w3.org/1999/02/22-rdf-syntax-ns#"><rdf:Description rdf:about="" xmlns:exif="http://ns.adobe.com/exif/1.0/" exif:GPSLatitude="50,7.05N"/></rdf:RDF></x:xmpmeta><?xpacket end="w"?>',
    );

const crcTable = Array.from({ length: 256 }, (_, n) => {
  let c = n;
  for (let k = 0; k < 8; k += 1) c = c & 1 ? 0xedb88320 ^ (c >>> 1) : c >>> 1;
  return c >>> 0;
});
const crc = (bytes: Buffer) =>
  (bytes.reduce((c, byte) => (crcTable[(c ^ byte) & 255] ?? 0) ^ (c >>> 8), 0xffffffff) ^
    0xffffffff) >>>
  0;

/** A PNG of so many pixels by its head, and hardly any in its body (PNG, third edition, 11.2.2). */
export async function hollowPng(width: number, height: number): Promise<Buffer> {
  const bytes = await sharp({ create: { width: 8, height: 8, channels: 3, background: '#777' } })
    .png()
    .toBuffer();
  bytes.writeUInt32BE(width, 16);
  bytes.writeUInt32BE(height, 20);
  bytes.writeUInt32BE(crc(bytes.subarray(12, 29)), 29);
  return bytes;
}

/**
 * 96 × 64 pixels in HEIC, the four colours in the corners, with Exif that names a camera and a place. Drawn by sharp,
 * encoded by `heif-enc -q 60` of Debian's libheif-examples 1.15.1.
 */
export const heic = Buffer.from(
  [
    'AAAAHGZ0eXBoZWljAAAAAG1pZjFoZWljbWlhZgAAAYBtZXRhAAAAAAAAACFoZGxyAAAAAAAAAABwaWN0AAAAAAAAAA',
    'AAAAAAAAAAAA5waXRtAAAAAAABAAAANGlsb2MAAAAAREAAAgABAAAAAAGkAAEAAAAAAAAAxwACAAAAAAJrAAEAAAAA',
    'AAABQgAAADhpaW5mAAAAAAACAAAAFWluZmUCAAAAAAEAAGh2YzEAAAAAFWluZmUCAAABAAIAAEV4aWYAAAAAv2lwcn',
    'AAAAChaXBjbwAAAHVodmNDAQNwAAAAAAAAAAAAHvAA/P34+AAADwMgAAEAGEABDAH//wNwAAADAJAAAAMAAAMAHroC',
    'QCEAAQAoQgEBA3AAAAMAkAAAAwAAAwAeoDCBBZbqSSmubAgAAAMACAAAAwAIQCIAAQAHRAHBcrAiQAAAABRpc3BlAA',
    'AAAAAAAGAAAABAAAAAEHBpeGkAAAAAAwgICAAAABZpcG1hAAAAAAAAAAEAAQOBAoMAAAAaaXJlZgAAAAAAAAAOY2Rz',
    'YwACAAEAAQAAAhFtZGF0AAAAwygBrwng40ecuq///igf//4xG5D+DgGkglJ57QKp/pb3/+athrFlEzfWi5GeCrwpYr',
    '50TE4c28yornIhMZDmw4xyOBCag+HWwi3yNqyt6NpxAvheshLzp5yzrf/9utP/+6Gqv/r4/Hc2QYdtSKfOsH2CuZcS',
    'GQkhA/srdb2+V2V19Vd+wUgvzVXAWWpqlCfC0Bn9xRc8zy3keC/w8er/uDWn8eKen/4tWR92hsQHcSnyyaNtpusyY2',
    '5UWX4j5gq51+1jDwAAAABJSSoACAAAAAgADwECAAwAAAB+AAAAEgEDAAEAAAABAAAAGgEFAAEAAABuAAAAGwEFAAEA',
    'AAB2AAAAKAEDAAEAAAACAAAAEwIDAAEAAAABAAAAaYcEAAEAAACKAAAAJYgEAAEAAADYAAAAAAAAADhjAADoAwAAOG',
    'MAAOgDAABUZXN0IGNhbWVyYQAGAACQBwAEAAAAMDIxMAGRBwAEAAAAAQIDAACgBwAEAAAAMDEwMAGgAwABAAAA//8A',
    'AAKgBAABAAAAYAAAAAOgBAABAAAAQAAAAAAAAAAEAAEAAgACAAAATgAAAAIABQADAAAAJgEAAAMAAgACAAAAVwAAAA',
    'QABQADAAAADgEAAAAAAAAFAAAAAQAAABwAAAABAAAAKAAAAAEAAAAyAAAAAQAAAAcAAAABAAAAAwAAAAEAAAA=',
  ].join(''),
  'base64',
);

/** The same file, saying of itself that it has so many pixels (ISO/IEC 23008-12, 6.5.3: ispe). */
export function hollowHeic(width: number, height: number): Buffer {
  const bytes = Buffer.from(heic);
  const at = bytes.indexOf('ispe') + 8;
  bytes.writeUInt32BE(width, at);
  bytes.writeUInt32BE(height, at + 4);
  return bytes;
}

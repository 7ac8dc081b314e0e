const LOOK_EVERY_MS = 200;
const PATIENCE_MS = 20_000;

/** The Shape Detection API's reader (W3C), where a browser has it. */
interface CodeReader {
  detect(source: HTMLVideoElement): Promise<{ rawValue: string }[]>;
}
interface ReaderClass {
  new (options: { formats: string[] }): CodeReader;
  getSupportedFormats(): Promise<string[]>;
}

/** Kinds of codes on parts and their papers, by the names of the Shape Detection API (WICG, BarcodeFormat). */
export const partCodes: readonly string[] = [
  'qr_code',
  'data_matrix',
  'code_128',
  'code_39',
  'code_93',
  'pdf417',
  'aztec',
  'itf',
  'codabar',
  'ean_13',
  'ean_8',
  'upc_a',
  'upc_e',
];

const readerClass = () => (globalThis as { BarcodeDetector?: ReaderClass }).BarcodeDetector ?? null;

/** Whether this browser reads codes by its camera. */
export const canReadCodes = (): boolean =>
  readerClass() !== null && 'mediaDevices' in navigator && navigator.mediaDevices !== undefined;

/**
 * The first code that the camera sees.
 *
 * @param kinds what is looked for; left out: QR codes. Those that this browser cannot read are left out.
 * @throws Error with a sentence: no camera, not allowed, or nothing seen for twenty seconds
 */
export async function readCode(kinds: readonly string[] = ['qr_code']): Promise<string> {
  const Reader = readerClass();
  if (Reader === null) throw new Error('This browser reads no codes: type it.');
  const stream = await navigator.mediaDevices
    .getUserMedia({ video: { facingMode: 'environment' } })
    .catch(() => {
      throw new Error('The camera may not be used here, or there is none: type the code.');
    });
  try {
    const video = document.createElement('video');
    video.srcObject = stream;
    video.playsInline = true;
    await video.play();
    const known = await Reader.getSupportedFormats();
    const formats = kinds.filter((kind) => known.includes(kind));
    if (formats.length === 0) throw new Error('This browser reads no such codes: type it.');
    const reader = new Reader({ formats });
    const until = Date.now() + PATIENCE_MS;
    while (Date.now() < until) {
      const [found] = await reader.detect(video);
      if (found) return found.rawValue;
      await new Promise((resolve) => {
        setTimeout(resolve, LOOK_EVERY_MS);
      });
    }
    throw new Error('No code was seen. Hold it flat and in the light, or type it.');
  } finally {
    for (const track of stream.getTracks()) track.stop();
  }
}

const LOOK_EVERY_MS = 200;
const PATIENCE_MS = 20_000;

/** The Shape Detection API's reader (W3C), where a browser has it. */
interface CodeReader {
  detect(source: HTMLVideoElement): Promise<{ rawValue: string }[]>;
}
type ReaderClass = new (options: { formats: string[] }) => CodeReader;

const readerClass = () => (globalThis as { BarcodeDetector?: ReaderClass }).BarcodeDetector ?? null;

/** Whether this browser reads codes by its camera. */
export const canReadCodes = (): boolean =>
  readerClass() !== null && 'mediaDevices' in navigator && navigator.mediaDevices !== undefined;

/**
 * The first QR code that the camera sees.
 *
 * @throws Error with a sentence: no camera, not allowed, or nothing seen for twenty seconds
 */
export async function readCode(): Promise<string> {
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
    const reader = new Reader({ formats: ['qr_code'] });
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

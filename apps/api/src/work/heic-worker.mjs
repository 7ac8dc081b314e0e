// A thread of its own, because decoding takes a second or more and holds hundreds of megabytes that only its end
// gives back. Plain JavaScript, so that it starts under any loader.
import { parentPort, workerData } from 'node:worker_threads';
import decode from 'heic-decode';

const { bytes, mostPixels } = workerData;
try {
  const pictures = await decode.all({ buffer: bytes });
  const [{ width, height }] = pictures;
  if (width * height > mostPixels) parentPort.postMessage({ width, height, pixels: null });
  else {
    const { data } = await pictures[0].decode();
    const pixels = new Uint8Array(data.buffer, data.byteOffset, data.byteLength);
    parentPort.postMessage({ width, height, pixels }, [pixels.buffer]);
  }
} catch {
  parentPort.postMessage(null);
}

/** POSIX 1003.1-1988 "ustar", as tar-stream writes it: a header of one block, the bytes, zeros up to the next block. */
export const BLOCK = 512;

export class NotAnArchive extends Error {}

export interface Member {
  readonly name: string;
  readonly size: number;
  /** Seconds since 1970. */
  readonly mtime: number;
  /** Its bytes, piece by piece; must be read to the end before the next member. */
  readonly bytes: AsyncIterable<Uint8Array>;
}

const octal = (value: number, digits: number) => value.toString(8).padStart(digits, '0');

/**
 * The one header that a plain file of this name, size and time has here. Every byte of it follows from the three, so
 * that no byte of an archive can differ unseen.
 */
export function headerOf(name: string, size: number, mtime: number): Buffer {
  const block = Buffer.alloc(BLOCK);
  block.write(name, 0, 100, 'utf8');
  block.write('000644 \0', 100, 'latin1');
  block.write('000000 \0', 108, 'latin1');
  block.write('000000 \0', 116, 'latin1');
  block.write(`${octal(size, 11)} `, 124, 'latin1');
  block.write(`${octal(mtime, 11)} `, 136, 'latin1');
  block.write('        ', 148, 'latin1');
  block.write('0', 156, 'latin1');
  block.write('ustar\u000000', 257, 'latin1');
  block.write('000000 \0', 329, 'latin1');
  block.write('000000 \0', 337, 'latin1');
  const sum = block.reduce((total, byte) => total + byte, 0);
  block.write(`${octal(sum, 6)} \0`, 148, 'latin1');
  return block;
}

function numberAt(block: Buffer, from: number): number {
  const digits = block.toString('latin1', from, from + 11);
  if (!/^[0-7]{11}$/.test(digits)) throw new NotAnArchive('a size or time in it cannot be read');
  return Number.parseInt(digits, 8);
}

/**
 * Reads the members of an archive in order, holding no more of it than one piece, and accepts nothing but what
 * {@link headerOf} gives: any other byte in a header, between members or after the last ends the reading.
 *
 * @throws NotAnArchive with what is wrong where
 */
export async function* readTar(source: AsyncIterable<Uint8Array>): AsyncGenerator<Member> {
  const pieces = source[Symbol.asyncIterator]();
  let held = Buffer.alloc(0);
  let offset = 0;
  const more = async (): Promise<boolean> => {
    const { value, done } = await pieces.next();
    if (done) return false;
    held = held.length === 0 ? asBuffer(value) : Buffer.concat([held, value]);
    return true;
  };
  const take = async (count: number, what: string): Promise<Buffer> => {
    while (held.length < count)
      if (!(await more()))
        throw new NotAnArchive(`it is cut off at byte ${offset + held.length}, in ${what}`);
    const taken = held.subarray(0, count);
    held = held.subarray(count);
    offset += count;
    return taken;
  };
  const zeros = async (count: number, what: string) => {
    const at = offset;
    if ((await take(count, what)).some((byte) => byte !== 0))
      throw new NotAnArchive(`bytes after ${at} should be empty and are not, in ${what}`);
  };

  try {
    while (true) {
      const at = offset;
      const block = Buffer.from(await take(BLOCK, 'the list of members'));
      if (block.every((byte) => byte === 0)) break;
      const end = block.indexOf(0);
      const name = block.toString('utf8', 0, end > 100 || end < 0 ? 100 : end);
      const [size, mtime] = [numberAt(block, 124), numberAt(block, 136)];
      if (!headerOf(name, size, mtime).equals(block))
        throw new NotAnArchive(`the header at byte ${at} was changed`);
      const member = `"${name.slice(0, 100)}"`;
      let left = size;
      const bytes = (async function* () {
        while (left > 0) {
          if (held.length === 0 && !(await more()))
            throw new NotAnArchive(`it is cut off at byte ${offset}, in ${member}`);
          const piece = held.subarray(0, left);
          held = held.subarray(piece.length);
          left -= piece.length;
          offset += piece.length;
          yield piece;
        }
      })();
      yield { name, size, mtime, bytes };
      if (left > 0) throw new TypeError(`${member} was not read to its end`);
      await zeros((BLOCK - (size % BLOCK)) % BLOCK, member);
    }
    await zeros(BLOCK, 'its end');
    const after = offset;
    while (held.length === 0 && (await more()));
    if (held.length > 0)
      throw new NotAnArchive(`something was added after byte ${after}, where it ends`);
  } finally {
    await pieces.return?.();
  }
}

const asBuffer = (bytes: Uint8Array): Buffer<ArrayBuffer> =>
  Buffer.isBuffer(bytes)
    ? (bytes as Buffer<ArrayBuffer>)
    : (Buffer.from(bytes.buffer, bytes.byteOffset, bytes.byteLength) as Buffer<ArrayBuffer>);

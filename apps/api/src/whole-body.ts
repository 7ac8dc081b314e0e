import express, { type Request, type Response } from 'express';
import { Refused } from './errors.ts';

/**
 * Reads the bytes of a request whole.
 *
 * @param what what is sent, for sentences: "document"
 * @param most bytes that are taken
 * @param instead what to do where there are more
 */
export function wholeBody({
  what,
  most,
  instead,
}: {
  what: string;
  most: number;
  instead: string;
}) {
  // Compressed bodies are refused: a small one could unpack to a very large one.
  const read = express.raw({ type: () => true, limit: most, inflate: false });
  return (request: Request, response: Response): Promise<Buffer> =>
    new Promise((resolve, reject) => {
      read(request, response, (error?: unknown) => {
        if (!error) return resolve(Buffer.isBuffer(request.body) ? request.body : Buffer.alloc(0));
        const status = typeof error === 'object' && 'status' in error ? error.status : 400;
        reject(
          status === 413
            ? new Refused(
                'TOO_LARGE',
                `The ${what} is larger than ${most / 1024 / 1024} MB, which is the most that is taken: ${instead}.`,
              )
            : new Refused(
                'BAD_INPUT',
                `The ${what} did not arrive whole, or it was sent compressed: send its bytes as they are.`,
              ),
        );
      });
    });
}

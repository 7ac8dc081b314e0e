// After `next build`: beside every script and style of .next/static, in .next/static/br, the same by brotli at its
// finest, so that no request waits for it; and the entry that serves them, into the standalone folder.
import { cpSync, mkdirSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import { brotliCompressSync, constants } from 'node:zlib';

const built = path.join(import.meta.dirname, '.next');
const files = path.join(built, 'static');
const packed = path.join(files, 'br');
rmSync(packed, { recursive: true, force: true });

const worth = readdirSync(files, { recursive: true, encoding: 'utf8' }).filter((name) =>
  /\.(js|css|svg)$/.test(name),
);
for (const name of worth) {
  const text = readFileSync(path.join(files, name));
  const file = path.join(packed, name);
  mkdirSync(path.dirname(file), { recursive: true });
  writeFileSync(
    file,
    brotliCompressSync(text, {
      params: {
        [constants.BROTLI_PARAM_QUALITY]: constants.BROTLI_MAX_QUALITY,
        [constants.BROTLI_PARAM_LGWIN]: constants.BROTLI_MAX_WINDOW_BITS,
        [constants.BROTLI_PARAM_SIZE_HINT]: text.length,
      },
    }),
  );
}

cpSync(
  path.join(import.meta.dirname, 'serve.mjs'),
  path.join(built, 'standalone/apps/web/serve.mjs'),
);

import path from 'node:path';
import { fileURLToPath } from 'node:url';

/** The root of the checkout. Everything here is addressed from it, whatever folder the command was called in. */
export const root = path.resolve(path.dirname(fileURLToPath(import.meta.url)), '..');

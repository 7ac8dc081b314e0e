import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';

const require = createRequire(import.meta.url);
const read = (file: string) => readFileSync(require.resolve(`@fontsource/${file}.woff`));

/** B612 for words and B612 Mono for figures (SIL Open Font License), read once. */
export const typefaces = {
  words: read('b612/files/b612-latin-400-normal'),
  bold: read('b612/files/b612-latin-700-normal'),
  figures: read('b612-mono/files/b612-mono-latin-400-normal'),
  boldFigures: read('b612-mono/files/b612-mono-latin-700-normal'),
} as const;

export type Face = keyof typeof typefaces;

/** Characters that the embedded files draw; a test renders every one of them and reads it back. */
export const drawn =
  /^[\x20-\x7e\u00a1-\u00ac\u00ae-\u00ff\u2013\u2014\u2018-\u201a\u201c-\u201e\u2022\u2026\u2039\u203a\u20ac\u2122\u2212]$/u;

const instead: Record<string, string> = {
  '\u0142': 'l',
  '\u0141': 'L',
  '\u0111': 'd',
  '\u0110': 'D',
  '\u0131': 'i',
  '\u0153': 'oe',
  '\u0152': 'OE',
  '\u2264': '<=',
  '\u2265': '>=',
  '\u2192': '->',
  '\u2190': '<-',
  '\u2010': '-',
  '\u2011': '-',
  '\u2032': "'",
  '\u2033': '"',
  '\u2713': 'x',
};

/**
 * A text in the characters that the typeface has: other letters lose their marks rather than being
 * left blank, and what has no likeness at all becomes a question mark.
 *
 * @example legible('Žižka ≤ 5 mm') // → 'Zizka <= 5 mm'
 */
export function legible(text: string): string {
  let written = '';
  for (const sign of text.normalize('NFC')) {
    if (drawn.test(sign)) written += sign;
    else if (/\s/u.test(sign)) written += ' ';
    else if (/\p{C}/u.test(sign)) continue;
    else if (instead[sign] !== undefined) written += instead[sign];
    else {
      const base = sign.normalize('NFKD').replace(/\p{M}/gu, '');
      written += [...base].every((each) => drawn.test(each)) && base !== '' ? base : '?';
    }
  }
  return written;
}

import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { create } from 'fontkit';

const require = createRequire(import.meta.url);
const read = (file: string) => readFileSync(require.resolve(`@fontsource/${file}.woff`));

/** B612 for words and B612 Mono for figures (SIL Open Font License), read once. */
const faces = {
  words: read('b612/files/b612-latin-400-normal'),
  bold: read('b612/files/b612-latin-700-normal'),
  figures: read('b612-mono/files/b612-mono-latin-400-normal'),
  boldFigures: read('b612-mono/files/b612-mono-latin-700-normal'),
} as const;

export type Face = keyof typeof faces;

/**
 * B612 draws Western European letters only, as does its whole cut outside of npm. Letters of elsewhere
 * come from Open Sans (SIL Open Font License), as on the pages: apps/web/app/other-letters.css.
 */
const others = [
  'latin-ext',
  'vietnamese',
  'greek',
  'cyrillic',
  'cyrillic-ext',
  'math',
  'latin',
] as const;
const weights = [400, 700] as const;
const otherName = (slice: (typeof others)[number], weight: (typeof weights)[number]) =>
  `other-${slice}-${weight}`;

/** Every file that a paper may embed, by the name that it is registered under. */
export const typefaces: Readonly<Record<string, Buffer>> = {
  ...faces,
  ...Object.fromEntries(
    others.flatMap((slice) =>
      weights.map((weight) => [
        otherName(slice, weight),
        read(`open-sans/files/open-sans-${slice}-${weight}-normal`),
      ]),
    ),
  ),
};

/** So much larger, letters of Open Sans stand as high as those of B612: capitals of 0.714 and 0.75 of the size. */
export const OTHER_SCALE = 1.04;

/** A file of one font; a collection of several is none of ours. */
function open(bytes: Buffer) {
  const font = create(bytes);
  if (!('characterSet' in font)) throw new TypeError('A typeface file holds a collection.');
  return font;
}

const visible = (code: number) => !/[\p{C}\p{M}\u00ad]/u.test(String.fromCodePoint(code));
const signsOf = (bytes: Buffer) =>
  new Set(
    open(bytes)
      .characterSet.filter(visible)
      .map((code) => String.fromCodePoint(code)),
  );
const own = Object.fromEntries(
  (Object.keys(faces) as Face[]).map((face) => [face, signsOf(faces[face])]),
) as Record<Face, Set<string>>;
const elsewhere = others.map((slice) => {
  const bytes = typefaces[otherName(slice, 400)];
  return { slice, signs: bytes ? signsOf(bytes) : new Set<string>() };
});

/** All that can be drawn in a face; a test renders every one and reads it back. */
export const signsIn = (face: Face): string[] => [
  ...new Set([...own[face], ...elsewhere.flatMap(({ signs }) => [...signs])]),
];

const ascents = Object.fromEntries(
  Object.entries(faces).map(([face, bytes]) => {
    const { ascent, unitsPerEm } = open(bytes);
    return [face, ascent / unitsPerEm];
  }),
) as Record<Face, number>;

/** How far the line of writing is under the top, as a share of the size. */
export const ascentOf = (face: Face): number => ascents[face];

const weightOf = (face: Face) => (face === 'bold' || face === 'boldFigures' ? 700 : 400);

/** The registered name of what draws a sign in a face: the face itself where it can. */
function drawerOf(sign: string, face: Face): string | undefined {
  if (own[face].has(sign)) return face;
  const other = elsewhere.find(({ signs }) => signs.has(sign));
  return other && otherName(other.slice, weightOf(face));
}

/** A legible text in pieces that one file each draws. */
export function piecesOf(text: string, face: Face): { text: string; font: string }[] {
  if (/^[\x20-\x7e]*$/.test(text)) return [{ text, font: face }];
  const pieces: { text: string; font: string }[] = [];
  for (const sign of text) {
    const font = drawerOf(sign, face) ?? face;
    const last = pieces.at(-1);
    if (last?.font === font) last.text += sign;
    else pieces.push({ text: sign, font });
  }
  return pieces;
}

const instead: Record<string, string> = {
  '\u2010': '-',
  '\u2011': '-',
  '\u2190': '<-',
  '\u2192': '->',
  '\u2713': 'x',
};

const drawn = (sign: string) => drawerOf(sign, 'words') !== undefined;

/**
 * A text in the characters that can be drawn: Latin, Greek and Cyrillic letters as they are. Marks that
 * belong to no letter of their own are left out, and what cannot be drawn at all becomes a question mark.
 *
 * @example legible('Žižka\u2713 ≤ 5 mm, 岛') // → 'Žižkax ≤ 5 mm, ?'
 */
export function legible(text: string): string {
  let written = '';
  for (const sign of text.normalize('NFC')) {
    if (/\s/u.test(sign)) written += ' ';
    else if (drawn(sign)) written += sign;
    else if (/[\p{C}\p{M}]/u.test(sign)) continue;
    else if (instead[sign] !== undefined) written += instead[sign];
    else {
      const base = sign.normalize('NFKD').replace(/\p{M}/gu, '');
      written += base !== '' && [...base].every(drawn) ? base : '?';
    }
  }
  return written;
}

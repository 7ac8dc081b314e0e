/**
 * Draws the demo shop's pictures: our own drawings (drawings/*.ts), never photographs of anything.
 *
 *     npx tsx prisma/demo/draw-pictures.ts
 *
 * writes pictures/*.webp, 1600 × 1200, at most 60 kB each: quality is lowered until it fits.
 */
import { mkdirSync, writeFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { chafedHose, engineBay, fuelStainAtDrain, oilSeepRockerCover } from './drawings/engine.ts';
import { crackInMirror, greyStreakOnShroud, shroudClearance } from './drawings/exhaust.ts';

type Render = (svg: Buffer) => {
  webp(options: { quality: number; effort: number }): { toBuffer(): Promise<Buffer> };
};
// The demo is no package of its own: the image library is the API's.
const sharp = createRequire(new URL('../../apps/api/package.json', import.meta.url))(
  'sharp',
) as Render;

const mostBytes = 60_000;
const pictures = {
  'grey-streak-on-shroud': greyStreakOnShroud,
  'crack-in-mirror': crackInMirror,
  'shroud-clearance': shroudClearance,
  'oil-seep-rocker-cover': oilSeepRockerCover,
  'chafed-hose': chafedHose,
  'fuel-stain-at-drain': fuelStainAtDrain,
  'engine-bay': engineBay,
};

mkdirSync(new URL('pictures/', import.meta.url), { recursive: true });
for (const [name, draw] of Object.entries(pictures)) {
  const svg = Buffer.from(draw());
  let quality = 84;
  let bytes = await sharp(svg).webp({ quality, effort: 6 }).toBuffer();
  while (bytes.length > mostBytes) {
    quality -= 6;
    if (quality < 40) throw new RangeError(`${name} does not fit into ${mostBytes} bytes`);
    bytes = await sharp(svg).webp({ quality, effort: 6 }).toBuffer();
  }
  writeFileSync(new URL(`pictures/${name}.webp`, import.meta.url), bytes);
  console.log(`${name}.webp: ${bytes.length} bytes at quality ${quality}`);
}

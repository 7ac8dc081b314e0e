import { readFileSync } from 'node:fs';
import { expect, test } from 'vitest';

const css = readFileSync(new URL('../app/global.css', import.meta.url), 'utf8');

/** What stands between the braces after a selector's first appearance. */
function block(opening: string): string {
  const start = css.indexOf(opening);
  if (start < 0) throw new RangeError(`global.css has no "${opening}"`);
  return css.slice(start, css.indexOf('\n}', start));
}

function tokens(text: string, scheme: 'day' | 'night'): Record<string, string> {
  const pairs = text.matchAll(/--([a-z-]+): light-dark\((#[0-9a-f]{6}), (#[0-9a-f]{6})\);/g);
  return Object.fromEntries(
    [...pairs].map(([, name, day, night]) => [name, scheme === 'day' ? day : night]),
  );
}

/** Relative luminance of sRGB, WCAG 2.2, definition "relative luminance". */
function luminance(hex: string): number {
  const [r = 0, g = 0, b = 0] = [1, 3, 5].map((at) => {
    const value = Number.parseInt(hex.slice(at, at + 2), 16) / 255;
    return value <= 0.04045 ? value / 12.92 : ((value + 0.055) / 1.055) ** 2.4;
  });
  return 0.2126 * r + 0.7152 * g + 0.0722 * b;
}

/** Contrast ratio, WCAG 2.2, definition "contrast ratio": (L1 + 0.05) / (L2 + 0.05). */
function contrast(one: string, other: string): number {
  const [dark = 0, light = 0] = [luminance(one), luminance(other)].sort((a, b) => a - b);
  return (light + 0.05) / (dark + 0.05);
}

test('the formula gives the ratios that WCAG 2.2 names', () => {
  // Black on white is 21:1 by the definition; #767676 on white is known as the lightest grey that
  // passes 4.5:1 (4.54; from memory of W3C's technique G18, recomputed here).
  expect(contrast('#000000', '#ffffff')).toBeCloseTo(21, 10);
  expect(contrast('#767676', '#ffffff')).toBeCloseTo(4.54, 2);
  expect(contrast('#777777', '#ffffff')).toBeLessThan(4.5);
});

const inks = ['ink', 'ink-second', 'touch', 'oxide', 'ochre'];

for (const scheme of ['day', 'night'] as const) {
  const desk = tokens(block(':root {'), scheme);
  const bench = { ...desk, ...tokens(block('[data-reading="bench"] {'), scheme) };

  test(`${scheme}: every token of the sheet is read`, () => {
    expect(Object.keys(desk).sort()).toEqual([...inks, 'ground', 'hairline'].sort());
  });

  for (const ink of inks) {
    test(`${scheme}: ${ink} on the ground reaches 4.5:1 (WCAG 2.2, 1.4.3 AA)`, () => {
      expect(contrast(desk[ink] ?? '', desk.ground ?? '')).toBeGreaterThanOrEqual(4.5);
    });

    test(`${scheme}: ${ink} on the ground at the bench reaches 7:1 (WCAG 2.2, 1.4.6 AAA)`, () => {
      expect(contrast(bench[ink] ?? '', bench.ground ?? '')).toBeGreaterThanOrEqual(7);
    });
  }
}

test('a browser without light-dark() gets inks that pass at the desk and at the bench', () => {
  const fallback = block('@supports not (color: light-dark(#000, #fff)) {');
  const plain = Object.fromEntries(
    [...fallback.matchAll(/--([a-z-]+): (#[0-9a-f]{6});/g)].map(([, name, value]) => [name, value]),
  );
  for (const ink of inks)
    expect(contrast(plain[ink] ?? '', plain.ground ?? '')).toBeGreaterThanOrEqual(7);
});

test('paper is black on white', () => {
  const print = css.slice(css.indexOf('@media print'));
  for (const ink of [...inks, 'hairline']) expect(print).toContain(`--${ink}: #000;`);
  expect(print).toContain('--ground: #fff;');
});

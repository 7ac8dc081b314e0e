/** What of the demo shop is written by a program, and its pictures. */
import { readdirSync, statSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { historyCsv } from '../../../prisma/demo/generate-history.ts';
import { demo, findings, history, historyRows, unknown } from './demo-files.ts';

describe('what is generated', () => {
  test('history.csv is what its generator writes, byte for byte', () => {
    expect(history).toBe(historyCsv());
  });

  test('history spans two years up to 20 November 2026, in order, a few rows censored', () => {
    const dates = historyRows.map(([completed]) => completed ?? '');
    expect(dates).toEqual([...dates].sort());
    expect((dates[0] ?? '') >= '2024-11-19' && (dates[0] ?? '') < '2025-01-01').toBe(true);
    expect((dates.at(-1) ?? '') < '2026-11-20' && (dates.at(-1) ?? '') > '2026-10-20').toBe(true);
    const censored = historyRows.filter((row) => row[8] === '1').length;
    expect(censored).toBeGreaterThanOrEqual(2);
    expect(censored).toBeLessThanOrEqual(10);
  });

  test('every picture named exists, none is larger than 80 kB', () => {
    const files = readdirSync(new URL('pictures/', demo));
    expect(files.length).toBeGreaterThanOrEqual(5);
    for (const file of files) {
      expect(statSync(new URL(`pictures/${file}`, demo)).size).toBeLessThanOrEqual(80_000);
    }
    const named = findings.flatMap((finding) => finding.photos.map((photo) => photo.file));
    expect(unknown(named, new Set(files))).toEqual([]);
  });
});

import { describe, expect, it } from 'vitest';
import { sentWords, sizeWords, tooLargeWords } from '../features/work/photo-words.ts';

const MB = 1024 * 1024;

describe('how large a photo is, and how much of it is sent', () => {
  it.each([
    [0, '0 kB'],
    [1, '1 kB'],
    [800 * 1024, '800 kB'],
    [1.25 * MB, '1.3 MB'],
    [8.2 * MB, '8 MB'],
  ])('%d bytes are %s', (bytes, words) => {
    expect(sizeWords(bytes)).toBe(words);
  });

  it.each([
    [undefined, 8 * MB, '8 MB, nothing sent yet'],
    [0, 8 * MB, '8 MB, nothing sent yet'],
    [3.9 * MB, 8 * MB, '3 of 8 MB sent'],
    [0.5 * MB, 2 * MB, '0.5 of 2.0 MB sent'],
    [300 * 1024, 800 * 1024, '300 of 800 kB sent'],
  ])('%s of %d bytes: %s', (sent, size, words) => {
    expect(sentWords(sent, size)).toBe(words);
  });

  it('never claims more than is there', () => {
    for (let size = 1; size < 40 * MB; size = Math.ceil(size * 1.7))
      for (const part of [0.2, 0.5, 0.999]) {
        const said = /^([\d.]+) of ([\d.]+)/.exec(sentWords(Math.floor(size * part), size));
        if (said) expect(Number(said[1])).toBeLessThanOrEqual(Number(said[2]));
      }
  });

  it('says what was given and what is needed', () => {
    expect(tooLargeWords({ name: 'a.jpg', size: 32 * MB })).toBe(
      'a.jpg has 32 MB; at most 25 MB are taken. Take it smaller.',
    );
  });
});

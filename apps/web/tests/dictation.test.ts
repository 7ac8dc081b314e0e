import { expect, test, vi } from 'vitest';
import { joined, listen, recognitionOf } from '../lib/dictation.ts';

/** A browser's speech recognition, as the draft of the Web Speech API (WICG) has it: events, and an end after each. */
class Recognition {
  static last: Recognition;
  static refuses = false;
  lang = '';
  continuous = false;
  interimResults = true;
  onresult: ((event: object) => void) | null = null;
  onerror: ((event: { error: string }) => void) | null = null;
  onend: (() => void) | null = null;
  constructor() {
    Recognition.last = this;
  }
  start() {
    if (Recognition.refuses) throw new DOMException('InvalidStateError');
  }
  stop() {
    this.onend?.();
  }
  abort() {
    this.onend?.();
  }
  hears(resultIndex: number, ...spoken: [string, boolean][]) {
    const results = spoken.map(([transcript, isFinal]) => ({ isFinal, 0: { transcript } }));
    this.onresult?.({ resultIndex, results });
  }
}
const begin = () => {
  const [onHeard, onEnd] = [vi.fn(), vi.fn()];
  const stop = listen(Recognition as never, 'de-CH', { onHeard, onEnd });
  return { heard: onHeard, ended: onEnd, stop, recognition: Recognition.last };
};

test('a browser without it offers nothing; with a maker’s name before it, it is the same', () => {
  expect(recognitionOf({})).toBeNull();
  expect(recognitionOf({ webkitSpeechRecognition: Recognition })).toBe(Recognition);
  expect(recognitionOf({ SpeechRecognition: Recognition })).toBe(Recognition);
});

test('what is understood for good is heard once, in the reader’s language', () => {
  const { heard, recognition } = begin();
  expect([recognition.lang, recognition.continuous]).toEqual(['de-CH', true]);
  recognition.hears(0, ['grey', false]);
  recognition.hears(0, ['grey streak', true]);
  recognition.hears(1, ['grey streak', true], [' below', true]);
  expect(heard.mock.calls).toEqual([['grey streak'], [' below']]);
});

test('it ends when it is told to, when the browser ends it, and with a sentence where it may not listen', () => {
  const told = begin();
  told.stop();
  expect(told.ended.mock.calls).toEqual([[null]]);
  const silent = begin();
  silent.recognition.onerror?.({ error: 'no-speech' });
  silent.recognition.onend?.();
  expect(silent.ended.mock.calls).toEqual([[null]]);
  const barred = begin();
  barred.recognition.onerror?.({ error: 'not-allowed' });
  barred.recognition.onend?.();
  expect(barred.ended.mock.calls).toEqual([[expect.stringMatching(/allow it the microphone/)]]);
  Recognition.refuses = true;
  expect(begin().ended.mock.calls).toEqual([[expect.stringMatching(/type instead/)]]);
  Recognition.refuses = false;
});

test('what is heard comes after what was typed, with one space between', () => {
  expect(joined('', ' grey ')).toBe('grey');
  expect(joined('Grey', 'streak')).toBe('Grey streak');
  expect(joined('Grey\n', 'streak')).toBe('Grey\nstreak');
  expect(joined('Grey', '  ')).toBe('Grey');
});

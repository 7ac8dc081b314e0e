/** As much of the browser's speech recognition as is used (Web Speech API, WICG draft); TypeScript's own list has it not. */
interface Recognition {
  lang: string;
  continuous: boolean;
  interimResults: boolean;
  onresult: ((event: { resultIndex: number; results: ArrayLike<Spoken> }) => void) | null;
  onerror: ((event: { error: string }) => void) | null;
  onend: (() => void) | null;
  start(): void;
  stop(): void;
  abort(): void;
}
interface Spoken {
  isFinal: boolean;
  0: { transcript: string };
}
type MakesRecognition = new () => Recognition;

/** What a browser that listens offers; null where it offers nothing. */
export function recognitionOf(browser: object): MakesRecognition | null {
  const { SpeechRecognition, webkitSpeechRecognition } = browser as {
    SpeechRecognition?: MakesRecognition;
    webkitSpeechRecognition?: MakesRecognition;
  };
  return SpeechRecognition ?? webkitSpeechRecognition ?? null;
}

/**
 * What was heard, after what stands in a field already.
 *
 * @example joined('Grey streak.', ' below the shroud ') // → 'Grey streak. below the shroud'
 */
export function joined(words: string, heard: string): string {
  const said = heard.trim();
  if (said === '') return words;
  return words === '' || /\s$/.test(words) ? words + said : `${words} ${said}`;
}

const troubles: Record<string, string> = {
  'not-allowed': 'The browser may not listen: allow it the microphone.',
  'service-not-allowed': 'The browser may not listen: allow it the microphone.',
  'audio-capture': 'No microphone is to be had.',
  network: 'Without a network this browser understands nothing: type instead.',
  'language-not-supported': 'This browser does not know the language: type instead.',
};

export interface Listening {
  /** Something was understood for good. */
  onHeard: (words: string) => void;
  /** It listens no more; with a sentence where that was not wanted. */
  onEnd: (trouble: string | null) => void;
}

/** Listens until it is told to stop, or the browser stops of itself. Returns the way to stop. */
export function listen(
  Recogniser: MakesRecognition,
  lang: string,
  { onHeard, onEnd }: Listening,
): () => void {
  const recognition = new Recogniser();
  let trouble: string | null = null;
  recognition.lang = lang;
  recognition.continuous = true;
  recognition.interimResults = false;
  recognition.onresult = ({ resultIndex, results }) => {
    for (let index = resultIndex; index < results.length; index += 1) {
      const spoken = results[index];
      if (spoken?.isFinal === true) onHeard(spoken[0].transcript);
    }
  };
  recognition.onerror = ({ error }) => {
    // Silence, or that it was stopped, is no trouble.
    if (error !== 'no-speech' && error !== 'aborted')
      trouble = troubles[error] ?? 'The browser does not understand just now: type instead.';
  };
  recognition.onend = () => onEnd(trouble);
  try {
    recognition.start();
  } catch {
    onEnd('The browser does not listen just now: type instead.');
  }
  return () => recognition.stop();
}

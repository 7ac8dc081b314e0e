'use client';

import { type ComponentProps, useEffect, useRef, useState, useSyncExternalStore } from 'react';
import { Button } from '../../components/Button.tsx';
import { LongField } from '../../components/Field.tsx';
import { joined, listen, recognitionOf } from '../../lib/dictation.ts';
import styles from './bench.module.css';

const never = () => () => undefined;

/** Several lines of words, typed or, where the browser offers it, spoken. */
export function SpokenField({
  value,
  onWords,
  ...rest
}: Omit<ComponentProps<typeof LongField>, 'value' | 'onChange'> & {
  value: string;
  onWords: (words: string) => void;
}) {
  // Nothing is drawn before the program runs: the server knows of no browser.
  const offered = useSyncExternalStore(
    never,
    () => recognitionOf(window) !== null,
    () => false,
  );
  const [listening, setListening] = useState(false);
  const [trouble, setTrouble] = useState<string | null>(null);
  const stop = useRef<() => void>(undefined);
  // What is heard comes after what stands there by then.
  const latest = useRef({ value, onWords });
  useEffect(() => {
    latest.current = { value, onWords };
  });
  useEffect(() => () => stop.current?.(), []);
  const toggle = () => {
    const Recogniser = recognitionOf(window);
    if (listening || Recogniser === null) {
      stop.current?.();
      return;
    }
    setTrouble(null);
    setListening(true);
    stop.current = listen(Recogniser, navigator.language, {
      onHeard: (words) => {
        // Two may be heard before either is drawn.
        latest.current.value = joined(latest.current.value, words);
        latest.current.onWords(latest.current.value);
      },
      onEnd: (said) => {
        setListening(false);
        setTrouble(said);
      },
    });
  };
  return (
    <div className={styles.spoken}>
      <LongField {...rest} value={value} onChange={(event) => onWords(event.currentTarget.value)} />
      {offered ? (
        <Button size="bench" aria-pressed={listening} onClick={toggle}>
          {listening ? 'Listening: touch to stop' : 'Say it'}
          <span className="spoken">: {rest.label}</span>
        </Button>
      ) : null}
      {offered && (listening || trouble !== null) ? (
        <p role="status" className={trouble === null ? styles.second : styles.beyond}>
          {trouble ?? 'The browser’s maker may hear it too. Read what it wrote before you send it.'}
        </p>
      ) : null}
    </div>
  );
}

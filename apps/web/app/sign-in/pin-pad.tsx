'use client';

import { useEffect, useState } from 'react';
import { Button } from '../../components/Button.tsx';
import styles from './quick-sign-in.module.css';

const LENGTH = 6;
const keys = ['1', '2', '3', '4', '5', '6', '7', '8', '9'];

/** Six digits by big keys, or by a keyboard; sent when the sixth is there. */
export function PinPad({ busy, onPin }: { busy: boolean; onPin: (pin: string) => void }) {
  const [pin, setPin] = useState('');
  useEffect(() => {
    const typed = ({ key }: KeyboardEvent) => {
      if (/^\d$/.test(key)) press(key);
      else if (key === 'Backspace') setPin((before) => before.slice(0, -1));
    };
    window.addEventListener('keydown', typed);
    return () => window.removeEventListener('keydown', typed);
  });
  function press(digit: string) {
    if (busy || pin.length === LENGTH) return;
    const next = pin + digit;
    setPin(next);
    if (next.length === LENGTH) onPin(next);
  }
  return (
    <div className={styles.pad}>
      <p className={styles.dots} role="status">
        <span data-screen-only="" aria-hidden="true">
          {'●'.repeat(pin.length)}
          {'○'.repeat(LENGTH - pin.length)}
        </span>
        <span className={styles.heard}>
          PIN: {pin.length} of {LENGTH} digits
        </span>
      </p>
      <div className={styles.keys}>
        {keys.map((digit) => (
          <Button key={digit} size="bench" onClick={() => press(digit)}>
            {digit}
          </Button>
        ))}
        <span />
        <Button size="bench" onClick={() => press('0')}>
          0
        </Button>
        <Button size="bench" onClick={() => setPin((before) => before.slice(0, -1))}>
          Back
        </Button>
      </div>
    </div>
  );
}

'use client';

import { useEffect, useState } from 'react';
import styles from './bench.module.css';

/** A photo from this device's own file: seen at once, with or without a network. */
export function PhotoPreview({ photo, words }: { photo: Blob; words: string }) {
  const [address, setAddress] = useState<string>();
  const [blind, setBlind] = useState(false);
  useEffect(() => {
    const made = URL.createObjectURL(photo);
    setAddress(made);
    setBlind(false);
    return () => URL.revokeObjectURL(made);
  }, [photo]);
  if (blind) {
    const heic = /hei[cf]/i.test(photo.type);
    return (
      <p className={styles.noPreview}>
        <span className="spoken">{words}: </span>
        {heic ? 'HEIC: this browser shows none; it is sent' : 'This browser cannot show it'}
      </p>
    );
  }
  return address === undefined ? null : (
    <img src={address} alt={words} onError={() => setBlind(true)} />
  );
}

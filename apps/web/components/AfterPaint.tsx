'use client';

import { type ReactNode, startTransition, useEffect, useState } from 'react';

/** What lies below the first screen of a sheet comes after its first frame: a touch is answered before everything is drawn. */
export function AfterPaint({ children }: { children: ReactNode }) {
  const [painted, setPainted] = useState(false);
  useEffect(() => {
    let later: ReturnType<typeof setTimeout> | undefined;
    // A task after a frame's callbacks comes after its paint.
    const frame = requestAnimationFrame(() => {
      later = setTimeout(() => startTransition(() => setPainted(true)));
    });
    // Hidden pages have no frames.
    const hidden = setTimeout(() => setPainted(true), 500);
    return () => {
      cancelAnimationFrame(frame);
      clearTimeout(later);
      clearTimeout(hidden);
    };
  }, []);
  return painted ? children : null;
}

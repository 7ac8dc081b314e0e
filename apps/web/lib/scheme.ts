/** The two lights a sheet is read in. Absent means: as the device says. */
export type Scheme = 'day' | 'night';

const storageKey = 'fairlead.scheme';

/** Runs in the head before the first paint, so that a chosen scheme never flashes the other. */
export const restoreScheme = `try{var s=localStorage.getItem('${storageKey}');if(s==='day'||s==='night')document.documentElement.dataset.scheme=s}catch{}`;

/** The scheme on the page now: chosen, else the device's. */
export function currentScheme(): Scheme {
  const chosen = document.documentElement.dataset.scheme;
  if (chosen === 'day' || chosen === 'night') return chosen;
  return window.matchMedia('(prefers-color-scheme: dark)').matches ? 'night' : 'day';
}

/** Puts the page in the scheme and remembers it where the browser allows. */
export function chooseScheme(scheme: Scheme): void {
  document.documentElement.dataset.scheme = scheme;
  try {
    localStorage.setItem(storageKey, scheme);
  } catch {
    // Private windows may refuse storage; the choice then lasts as long as the page.
  }
  window.dispatchEvent(new Event('fairlead:scheme'));
}

/** Calls back when the chosen scheme or the device's changes; returns the way to stop. */
export function watchScheme(changed: () => void): () => void {
  const device = window.matchMedia('(prefers-color-scheme: dark)');
  window.addEventListener('fairlead:scheme', changed);
  device.addEventListener('change', changed);
  return () => {
    window.removeEventListener('fairlead:scheme', changed);
    device.removeEventListener('change', changed);
  };
}

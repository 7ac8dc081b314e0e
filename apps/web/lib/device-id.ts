import { clientId } from './client-id.ts';

const KEY = 'fairlead.device';
let made: string | null = null;

/** An id that this device made for itself once; where the browser keeps nothing, it lasts as long as the page. */
export function deviceId(): string {
  if (made !== null) return made;
  made = clientId();
  try {
    made = localStorage.getItem(KEY) ?? made;
    localStorage.setItem(KEY, made);
  } catch {
    // As said above.
  }
  return made;
}

import { afterAnswer, type ShopClock } from './clock-offset.ts';

const KEY = 'fairlead.clock';
let known: ShopClock | null = null;

function read(): ShopClock {
  if (known !== null) return known;
  known = { offsetMs: 0, heard: 0 };
  try {
    known = { ...known, ...(JSON.parse(localStorage.getItem(KEY) ?? '{}') as Partial<ShopClock>) };
  } catch {
    // Refused or unreadable: measured again with the next answer.
  }
  return known;
}

/** The shop's clock as this device knows it, from the answers it had; kept over reloads. */
export const shopClock = {
  known: (): Readonly<ShopClock> => read(),
  /** Milliseconds since 1970. */
  now: (): number => Date.now() + read().offsetMs,
  /** Hears the time in an answer of the shop. */
  hear(answer: Response, asked: number): void {
    const shop = Number(answer.headers.get('fairlead-time') ?? Number.NaN);
    if (!Number.isFinite(shop)) return;
    known = afterAnswer(read(), { shop, asked, heard: Date.now() });
    try {
      localStorage.setItem(KEY, JSON.stringify(known));
    } catch {
      // Lasts as long as the page.
    }
  },
};

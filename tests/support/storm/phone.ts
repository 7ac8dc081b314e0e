// The outbox of the pages is run here, and is typed as there.
/// <reference lib="dom" />
import { clocksAsSent } from '../../../apps/web/features/work/clocks-as-sent.ts';
import {
  createOutbox,
  type Outbox,
  type Outcome,
} from '../../../apps/web/features/work/outbox-core.ts';
import { type Pending, waits } from '../../../apps/web/features/work/pending.ts';
import { isClock } from '../../../apps/web/features/work/pending-list.ts';
import { offsetAtSending } from '../../../apps/web/lib/clock-offset.ts';
import type { Act, Dice } from './acts.ts';
import { Locks, newPage, type Page, Storage } from './device.ts';
import { type Line, pause } from './line.ts';
import { ask, CLOCK_MANY, NOTE_FINDING, notedAs } from './requests.ts';

const DAY_MS = 86_400_000;
/** What went on at a telephone, counted. */
export interface Counted {
  sent: number;
  /** Things sent that had been sent before. */
  again: number;
  reloads: number;
  twoTabs: number;
  storageFull: number;
  clockSet: number;
  refused: string[];
}

/** One telephone of one person: the outbox of the pages, on a device that reloads, fills up, and whose clock is wrong. */
export class Phone {
  /** Told by the server to be taken. */
  readonly acknowledged = new Set<string>();
  readonly noted: Act[] = [];
  readonly counted: Counted = {
    sent: 0,
    again: 0,
    reloads: 0,
    twoTabs: 0,
    storageFull: 0,
    clockSet: 0,
    refused: [],
  };
  private readonly storage = new Storage();
  private readonly locks = new Locks();
  private readonly everSent = new Set<string>();
  private pages: Page[] = [];
  /** How far this device's clock is ahead of the true time, now and as far as it knows. */
  private skew: number;
  private known: { offsetMs: number; heard: number };
  private lost = false;
  private readonly of: {
    id: string;
    personId: string;
    orderId: string;
    dice: Dice;
    line: Line;
    acts: readonly Act[];
    /** How long an act takes of the storm's own time, on average, milliseconds. */
    paceMs: number;
    /** Where not every browser can tell that another page sends. */
    hasLocks: boolean;
  };

  constructor(of: Phone['of']) {
    this.of = of;
    const { dice, acts } = of;
    this.skew = dice.chance(0.4) ? 0 : Math.round((dice.next() - 0.5) * 4 * DAY_MS);
    this.known = { offsetMs: -this.skew, heard: (acts[0]?.at ?? Date.now()) - 60_000 };
    this.openPage();
  }

  /** Notes everything, sends what it can meanwhile, and goes on until nothing is left; a telephone that is lost stops half way. */
  async live({ losesItself }: { losesItself: boolean }): Promise<void> {
    const { dice, acts } = this.of;
    const setAt = dice.chance(0.3) ? dice.below(acts.length) : -1;
    const lostAt = losesItself ? Math.floor(acts.length / 2) : -1;
    for (const [index, act] of acts.entries()) {
      if (index === lostAt) {
        this.lose();
        return;
      }
      if (index === setAt) {
        // Somebody sets it by days; what the device knows of it is stale until it hears the shop again.
        this.skew += (dice.chance(0.5) ? 1 : -1) * (30 + dice.below(100)) * 3_600_000;
        this.counted.clockSet += 1;
      } else if (dice.chance(0.3) && index !== setAt + 1) this.hears(act.at - 1);
      await this.note(act);
      // Mostly nothing happens between two acts, and now and then for long.
      if (dice.chance(0.25)) await pause(dice.below(8 * this.of.paceMs));
      if (dice.chance(0.03)) await this.fill();
      if (dice.chance(0.04)) await this.reload();
      if (dice.chance(0.02)) this.openPage();
    }
    await this.drain();
  }

  /** It is lost, or the storm broken off. */
  lose(): void {
    this.lost = true;
    for (const page of this.pages) page.close();
  }

  /** Notes everything, and nothing else happens. */
  async noteAll(): Promise<void> {
    for (const act of this.of.acts) await this.note(act);
  }

  /** Goes on until nothing is left to send. */
  async drain(): Promise<void> {
    this.storage.full = false;
    while (this.left() > 0) {
      // The pages try again by themselves; a page that was in the background is looked at.
      await pause(200);
      for (const { outbox } of this.pages) outbox.sendNow();
      if (this.lost) throw new Error('The storm was broken off');
    }
  }

  private current(): Outbox {
    const page = this.pages.at(-1);
    if (!page) throw new Error('No page is open');
    return page.outbox;
  }

  private hears(at: number): void {
    this.known = { offsetMs: -this.skew, heard: at };
  }

  private async note(act: Act): Promise<void> {
    this.noted.push(act);
    const { personId, orderId } = this.of;
    await this.current().add(notedAs(act, { personId, orderId, madeAt: act.at + this.skew }));
  }

  /** The page is loaded anew, or the telephone restarted: what only lived in the page is gone, and it may be on its way. */
  private async reload(): Promise<void> {
    // While the device keeps nothing more the page says so, and nobody closes it.
    await pause(1);
    if (this.pages.some(({ outbox }) => outbox.unkept()) || this.storage.full) return;
    for (const page of this.pages) page.close();
    this.pages = [];
    this.counted.reloads += 1;
    this.openPage();
  }

  private async fill(): Promise<void> {
    this.storage.full = !this.storage.full;
    if (this.storage.full) this.counted.storageFull += 1;
    else await this.current().settle();
  }

  private openPage(): void {
    const page = newPage();
    const { hasLocks, personId } = this.of;
    if (this.pages.length > 0) this.counted.twoTabs += 1;
    page.outbox = createOutbox({
      store: this.storage.page(() => page.open) as never,
      send: (entries) => this.send(entries),
      alone: (name, work) => (hasLocks ? this.locks.one(name, work, page.closed) : work()),
      clock: () => this.known,
      announce: () => {
        for (const other of this.pages)
          if (other !== page && other.open) void other.outbox.changedElsewhere();
      },
      againAfterMs: 100,
    });
    this.pages.push(page);
    page.outbox.open({ personId, onTaken: () => Promise.resolve() });
  }

  /** As the pages send: what follows each other in one request, dated by what the device knew and knows. */
  private async send(entries: readonly Pending[]): Promise<Outcome[]> {
    if (this.lost) throw new Error('lost');
    const { line, id } = this.of;
    for (const each of entries) {
      this.counted.sent += 1;
      if (this.everSent.has(each.id)) this.counted.again += 1;
      this.everSent.add(each.id);
    }
    // A device whose last answer is not of this minute asks for the time first.
    const { time } = await line.post('{ __typename }', {});
    const real = Date.now();
    if (Math.abs(time - real) > 20_000)
      throw new Error(`The shop's time is ${time}, true is ${real}`);
    // What is noted next was noted after this, in the time of the story.
    this.hears(this.noted.at(-1)?.at ?? real);
    const device = ({ madeAt: at, clock }: Pending) => ({
      id,
      clockOffsetMs: offsetAtSending(
        { at, offsetMs: clock?.offsetMs ?? 0, heard: clock?.heard ?? 0 },
        { shop: real, offsetMs: this.known.offsetMs },
      ),
    });
    const clocks = entries.filter(isClock);
    const [first] = entries;
    if (clocks.length > 0) {
      const result = await ask(line, CLOCK_MANY, { events: clocksAsSent(clocks, device) });
      return clocks.map((entry) => {
        const refusal =
          result.answers?.find(({ clientEventId }) => clientEventId === entry.id)?.refusal ??
          result.message;
        return this.heard(entry, refusal);
      });
    }
    if (first?.kind !== 'finding') throw new Error('Only clocks and findings are noted here');
    const result = await ask(line, NOTE_FINDING, {
      ...first.input,
      photoIds: [],
      device: device(first),
    });
    return [this.heard(first, result.message)];
  }

  private heard(entry: Pending, refusal: string | null | undefined): Outcome {
    if (refusal === undefined || refusal === null) {
      this.acknowledged.add(entry.id);
      return {};
    }
    this.counted.refused.push(`${entry.id}: ${refusal}`);
    return { refused: refusal };
  }

  /** What is on the device and counts still; nothing after the storm. */
  left(): number {
    const open = this.pages.flatMap(({ outbox }) => outbox.now());
    return [...this.storage.rows.values(), ...open].filter(waits).length;
  }
}

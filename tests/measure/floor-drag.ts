// How much of a frame it takes to drag one of 40 aircraft over the floor, in a real browser on the built page.
// In tests/: npx vitest run --config measure/vitest.config.ts measure/floor-drag.ts. Wanted: at most 16 ms a frame.
// Starts a shop of its own, or takes the one at FAIRLEAD_ADDRESS (its demo's sign-ins are used).
import os from 'node:os';
import type { Page } from '@playwright/test';
import { expect, it } from 'vitest';
import { signInByForm as signIn } from '../journeys/people.ts';
import { largeFloor } from '../support/large-floor.ts';
import { measuredShop } from '../support/measured-shop.ts';

const AIRCRAFT = 40;
const STROKES = 8;
const STEPS = 60;

interface TraceEvent {
  name: string;
  ph: string;
  pid: number;
  tid: number;
  ts: number;
  dur?: number;
  tdur?: number;
  args?: { name?: string };
}

const here = measuredShop('floor');

async function openLargeFloor(): Promise<Page> {
  const context = await here.browser.newContext({
    baseURL: here.address,
    viewport: { width: 1440, height: 900 },
  });
  const page = await context.newPage();
  await page.route('**/graphql', async (route) => {
    if (!(route.request().postData() ?? '').includes('query Floor {')) return route.fallback();
    const answer = (await (await route.fetch()).json()) as Parameters<typeof largeFloor>[0];
    return route.fulfill({ json: largeFloor(answer, AIRCRAFT) });
  });
  await signIn(page, 'manager');
  await page.goto('/floor');
  await page.locator('[data-takes="QQ-339"]').waitFor();
  return page;
}

/** Takes one aircraft and draws strokes with it over the whole floor, a step a frame. */
async function drag(page: Page): Promise<number[]> {
  const plan = await page.locator('[data-scale="hangar"]').boundingBox();
  const handle = await page.locator('[data-takes="QQ-300"]').boundingBox();
  if (plan === null || handle === null) throw new Error('The floor is not drawn');
  await page.mouse.move(handle.x + handle.width / 2, handle.y + handle.height / 2);
  await page.mouse.down();
  await page.evaluate(`{
    window.frames_ = [];
    const note = (at) => { window.frames_.push(at); window.raf_ = requestAnimationFrame(note); };
    window.raf_ = requestAnimationFrame(note);
  }`);
  for (let stroke = 0; stroke < STROKES; stroke += 1) {
    const y = plan.y + (plan.height * (stroke + 0.5)) / STROKES;
    for (let step = 0; step <= STEPS; step += 1) {
      const share = stroke % 2 ? 1 - step / STEPS : step / STEPS;
      await page.mouse.move(plan.x + plan.width * share, y);
    }
  }
  const frames = await page.evaluate<number[]>('cancelAnimationFrame(window.raf_), window.frames_');
  await page.keyboard.press('Escape');
  await page.mouse.up();
  return frames;
}

/** Busy time of the page's main thread from one frame to the next: script, style, layout, paint, all of it. */
function busyPerFrame(events: readonly TraceEvent[], of: 'dur' | 'tdur'): number[] {
  const begins = events.filter(({ name }) => name === 'FireAnimationFrame');
  const { pid, tid } = begins[0] ?? { pid: 0, tid: 0 };
  const mine = events.filter((event) => event.pid === pid && event.tid === tid);
  const frames = mine.filter(({ name }) => name === 'FireAnimationFrame').map(({ ts }) => ts);
  const tasks = mine
    .filter(({ name, ph }) => name === 'RunTask' && ph === 'X')
    .sort((one, other) => one.ts - other.ts);
  const busy = frames.map(() => 0);
  let frame = 0;
  for (const task of tasks) {
    while (frame + 1 < frames.length && (frames[frame + 1] ?? 0) <= task.ts + (task.dur ?? 0))
      frame += 1;
    busy[frame] = (busy[frame] ?? 0) + (task[of] ?? 0) / 1000;
  }
  return busy.slice(1, -1);
}

function told(values: readonly number[]): string {
  const sorted = [...values].sort((one, other) => one - other);
  const at = (share: number) =>
    sorted[Math.min(sorted.length - 1, Math.floor(sorted.length * share))] ?? 0;
  return `median ${at(0.5).toFixed(1)}, p95 ${at(0.95).toFixed(1)}, max ${at(1).toFixed(1)} ms of ${sorted.length}`;
}

it('a floor of 40 aircraft while one is dragged', async () => {
  const page = await openLargeFloor();
  await drag(page);
  await here.browser.startTracing(page, {
    categories: ['devtools.timeline', 'disabled-by-default-devtools.timeline', 'toplevel'],
  });
  const stamps = await drag(page);
  const trace = JSON.parse((await here.browser.stopTracing()).toString()) as {
    traceEvents: TraceEvent[];
  };
  const events = trace.traceEvents;
  const count = (wanted: string) => events.filter(({ name }) => name === wanted).length;
  const wall = busyPerFrame(events, 'dur');
  const processor = busyPerFrame(events, 'tdur');
  expect(wall.length).toBeGreaterThan(100);
  const gaps = stamps.slice(1).map((at, index) => at - (stamps[index] ?? at));
  console.info(
    [
      `floor of ${AIRCRAFT} aircraft, one dragged over all of it, ${STROKES * (STEPS + 1)} moves; load ${os.loadavg()[0]?.toFixed(1)} on ${os.cpus().length} processors`,
      `main thread busy a frame (script, style, layout, paint): wall ${told(wall)}; processor ${told(processor)}`,
      `frames over 16 ms of work: ${wall.filter((ms) => ms > 16).length} by wall, ${processor.filter((ms) => ms > 16).length} by processor`,
      `from one frame to the next: ${told(gaps)}`,
      `in all: ${count('UpdateLayoutTree')} styles, ${count('Layout')} layouts, ${count('Paint')} paints`,
    ].join('\n'),
  );
}, 300_000);

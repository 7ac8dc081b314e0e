import { type Browser, expect, type Locator, type Page, test } from '@playwright/test';
import { withSize } from '../support/large-floor.ts';
import { axeFree, leave, signIn } from './people.ts';

test.afterAll(leave);

/** The floor, changed with the hand: taken, carried, put down, asked about, saved, and seen by the others. */
test.describe.configure({ mode: 'serial', timeout: 240_000 });

// What is still being answered when a test ends is nobody's fault.
test.afterEach(({ page }) => page.unrouteAll({ behavior: 'ignoreErrors' }));

const form = (page: Page) => page.getByRole('form', { name: /Plan a stay|An aircraft was moved/ });
const inHand = (page: Page) => page.getByRole('status', { name: 'In hand' });
const takes = (page: Page, registration: string) =>
  page.getByRole('button', { name: new RegExp(`^Take ${registration} from`) });

async function open(page: Page, who: 'manager' | 'front desk' | 'mechanic', width = 1440) {
  await page.setViewportSize({ width, height: 900 });
  await signIn(page, who);
  await page.goto('/floor');
  await expect(page.getByText(/^Taken today/)).toBeVisible();
}

/** The whole drawing, as far as it fits the screen: taking an aircraft scrolls it into sight, and what was measured before would be stale. */
const inSight = (page: Page) =>
  page
    .locator('[data-drawing="floor"]')
    .evaluate((drawing) => drawing.scrollIntoView({ block: 'nearest' }));

/** The middle of a stand on the screen. */
async function middleOf(page: Page, stand: string): Promise<{ x: number; y: number }> {
  await inSight(page);
  const box = await page.locator(`[data-stand="${stand}"]`).boundingBox();
  if (box === null) throw new Error(`Stand ${stand} is not drawn`);
  return { x: box.x + box.width / 2, y: box.y + box.height / 2 };
}

async function centreOf(what: Locator): Promise<{ x: number; y: number }> {
  const box = await what.boundingBox();
  if (box === null) throw new Error(`${what.toString()} is not drawn`);
  return { x: box.x + box.width / 2, y: box.y + box.height / 2 };
}

async function dragTo(page: Page, what: Locator, goal: { x: number; y: number }, letGo = true) {
  const from = await centreOf(what);
  await page.mouse.move(from.x, from.y);
  await page.mouse.down();
  await page.mouse.move(goal.x, goal.y, { steps: 8 });
  if (letGo) await page.mouse.up();
}

interface Mm {
  parkedLengthMm: number;
  parkedWidthMm: number;
}
interface FloorJson {
  data: {
    floor: {
      clearanceMm: number;
      hangar: { widthMm: number; depthMm: number };
      stands: {
        name: string;
        widthMm: number;
        depthMm: number;
        headingDeg: number;
        stay: { aircraft: { registration: string; model: Mm } } | null;
      }[];
    };
  };
}
/** The floor as the API answers it, while the page is opened. */
async function floorOf(page: Page): Promise<FloorJson['data']['floor']> {
  const answered = page.waitForResponse(
    (response) =>
      response.url().endsWith('/graphql') &&
      (response.request().postData() ?? '').includes('query Floor {'),
  );
  await page.reload();
  const { data } = (await (await answered).json()) as FloorJson;
  await expect(page.getByText(/^Taken today/)).toBeVisible();
  return data.floor;
}

/** What is used of an SVG element in the browser; the tests themselves know no document. */
interface Shape {
  getBBox(): { width: number; height: number };
  getScreenCTM(): { a: number; b: number; c: number; d: number } | null;
}

/** Width and height of a drawn element on the screen, from its own box and the drawing's matrix, strokes left out. */
const drawnSize = (what: Locator) =>
  what.evaluate((element) => {
    const shape = element as unknown as Shape;
    const { width, height } = shape.getBBox();
    const matrix = shape.getScreenCTM();
    if (matrix === null) throw new Error('It is not drawn');
    const along = Math.hypot(matrix.a, matrix.b) * width;
    const across = Math.hypot(matrix.c, matrix.d) * height;
    return { along, across };
  });

for (const width of [1440, 360])
  test(`The floor is drawn to scale at ${width} px: hangar, stands and every parked footprint`, async ({
    page,
  }) => {
    await open(page, 'manager', width);
    const floor = await floorOf(page);
    const hangar = await drawnSize(page.locator('[data-scale="hangar"]'));
    const perMm = hangar.along / floor.hangar.widthMm;
    const near = (is: number, millimetres: number, what: string) =>
      expect(Math.abs(is - millimetres * perMm), what).toBeLessThanOrEqual(1);
    near(hangar.across, floor.hangar.depthMm, 'depth of the hangar');
    // The scale itself, by what the browser lays out rather than by what the drawing says of itself.
    const svg = await page.locator('[data-drawing="floor"]').boundingBox();
    const viewBox = await page.locator('[data-drawing="floor"]').getAttribute('viewBox');
    const shown = Number(viewBox?.split(' ')[2]) * 1000;
    expect(Math.abs((svg?.width ?? 0) - shown * perMm)).toBeLessThanOrEqual(1);
    let measured = 0;
    for (const { name, widthMm, depthMm, headingDeg, stay } of floor.stands) {
      const stand = page.locator(`[data-stand="${name.replace(/^Stand /, '')}"]`);
      const drawn = await drawnSize(stand);
      near(drawn.along, widthMm, `${name}, width`);
      near(drawn.across, depthMm, `${name}, depth`);
      if (stay === null) continue;
      const { registration, model } = stay.aircraft;
      const footprint = page.locator(`[data-craft="${registration}"] rect`).first();
      const parked = await drawnSize(footprint);
      near(parked.along, model.parkedLengthMm, `${registration}, parked length`);
      near(parked.across, model.parkedWidthMm, `${registration}, parked width`);
      // And upright, as the eye has it: the length lies along the stand. A hairline may add its pixel.
      const box = await footprint.boundingBox();
      const upright = headingDeg % 180 === 0;
      const tall = (upright ? model.parkedLengthMm : model.parkedWidthMm) * perMm;
      expect(Math.abs((box?.height ?? 0) - tall), `${registration}, upright`).toBeLessThanOrEqual(
        2,
      );
      measured += 1;
    }
    expect(measured).toBeGreaterThanOrEqual(3);
  });

test('Dragged by mouse an aircraft says live whether it fits, asks before it is saved, and is moved', async ({
  page,
}) => {
  await open(page, 'manager');
  await expect(takes(page, 'QQ-117')).toHaveAccessibleName('Take QQ-117 from stand 1');
  // Too tight: QQ-188 is an airplane 10.9 m wide, stand 2 is for a helicopter.
  await dragTo(page, takes(page, 'QQ-188'), await middleOf(page, '2'), false);
  await expect(inHand(page)).toContainText(
    /^Cannot plan QQ-188 on stand 2: parked it is .* m wide and needs .* m with the shop's clearance; the stand is 4\.5 m wide\.$/,
  );
  const hand = page.locator('[data-carry="hand"]');
  const [clearance, parked] = [
    await drawnSize(hand.locator('[data-carry="clearance"]')),
    await drawnSize(hand.locator('rect').nth(1)),
  ];
  const perM = (await drawnSize(page.locator('[data-scale="hangar"]'))).along / 35;
  // One metre of the shop's clearance on every side, to scale.
  expect(Math.abs(clearance.along - parked.along - 2 * perM)).toBeLessThanOrEqual(1);
  expect(Math.abs(clearance.across - parked.across - 2 * perM)).toBeLessThanOrEqual(1);
  await axeFree(page);
  await page.mouse.up();
  await expect(form(page)).toHaveCount(0);
  await expect(inHand(page)).toContainText('Cannot plan QQ-188 on stand 2');

  // Escape puts it back.
  await dragTo(page, takes(page, 'QQ-117'), await middleOf(page, '2'), false);
  await expect(inHand(page)).toContainText(/^QQ-117 fits stand 2: /);
  await page.keyboard.press('Escape');
  await page.mouse.up();
  await expect(inHand(page)).toHaveText('QQ-117 is left as it was.');
  await expect(form(page)).toHaveCount(0);

  await dragTo(page, takes(page, 'QQ-117'), await middleOf(page, '2'));
  await expect(form(page)).toBeVisible();
  await expect(form(page).getByLabel('Goes to')).toHaveValue(/./);
  await axeFree(page);
  await form(page).getByRole('button', { name: 'Leave it as it is' }).click();
  await expect(takes(page, 'QQ-117')).toHaveAccessibleName('Take QQ-117 from stand 1');

  await dragTo(page, takes(page, 'QQ-117'), await middleOf(page, '2'));
  await form(page).getByRole('button', { name: 'Move it on the drawing' }).click();
  await expect(page.getByRole('status', { name: 'Saved' })).toHaveText('QQ-117 is on stand 2.');
  await expect(takes(page, 'QQ-117')).toHaveAccessibleName('Take QQ-117 from stand 2');
});

test('A planned arrival is dragged from its row onto another stand, and a departure out of the door', async ({
  page,
}) => {
  await open(page, 'front desk');
  const row = page.getByRole('button', { name: 'Take QQ-156 to another place' });
  await row.scrollIntoViewIfNeeded();
  const from = await centreOf(row);
  await page.mouse.move(from.x, from.y);
  await page.mouse.down();
  await page.mouse.move(from.x, from.y - 30, { steps: 3 });
  // The drawing comes into sight by itself.
  await expect(page.locator('[data-carry="hand"]')).toBeVisible();
  const goal = await middleOf(page, '3');
  await page.mouse.move(goal.x, goal.y, { steps: 8 });
  // QQ-188 stands there now, but will have left when this one comes.
  await expect(inHand(page)).toContainText(/^QQ-156 fits stand 3: /);
  await page.mouse.up();
  await expect(page.getByRole('form', { name: 'Plan a stay' })).toBeVisible();
  await form(page).getByRole('button', { name: 'Plan it' }).click();
  await expect(page.getByRole('button', { name: /QQ-156 (comes|moves) to stand 3/ })).toBeVisible();

  // On the drawing of that day: out of the door it does not come at all, which is left as it is.
  await page
    .getByRole('button', { name: /As it stands|now$/ })
    .first()
    .click();
  await inSight(page);
  const door = await page.locator('[data-scale="hangar"]').boundingBox();
  const outside = {
    x: (door?.x ?? 0) + (door?.width ?? 0) / 2,
    y: (door?.y ?? 0) + (door?.height ?? 0) + 14,
  };
  await dragTo(page, takes(page, 'QQ-149'), outside, false);
  await expect(inHand(page)).toHaveText('QQ-149 out of the door: it leaves.');
  await page.mouse.up();
  await form(page).getByText('On a day to come').click();
  await expect(form(page).getByLabel('Leaves')).toBeVisible();
  await form(page).getByRole('button', { name: 'Plan it' }).click();
  await expect(page.getByRole('status', { name: 'Saved' })).toHaveText(/^QQ-149 leaves /);
  await expect(page.getByRole('button', { name: /QQ-149 leaves stand 6/ })).toBeVisible();
});

test('By keyboard alone an aircraft is taken, held over the stands, put down and confirmed', async ({
  page,
}) => {
  await open(page, 'manager');
  const handle = takes(page, 'QQ-117');
  await handle.focus();
  await page.keyboard.press('Enter');
  await expect(inHand(page)).toHaveText('QQ-117 stays on stand 2.');
  await page.keyboard.press('ArrowLeft');
  await expect(inHand(page)).toContainText(/^QQ-117 fits stand 1: .* over in length/);
  await axeFree(page);
  await page.keyboard.press('Escape');
  await expect(inHand(page)).toHaveText('QQ-117 is left as it was.');
  await expect(handle).toBeFocused();
  await page.keyboard.press('Enter');
  await page.keyboard.press('ArrowLeft');
  await page.keyboard.press('Enter');
  await expect(form(page)).toBeVisible();
  await expect(form(page).getByRole('heading')).toBeFocused();
  // Enter once more presses nothing: nothing is saved by accident.
  await page.keyboard.press('Enter');
  await expect(form(page)).toBeVisible();
  for (let steps = 0; steps < 12; steps += 1) {
    await page.keyboard.press('Tab');
    const press = form(page).getByRole('button', { name: 'Move it on the drawing' });
    if (await press.evaluate((element) => element.matches(':focus'))) break;
  }
  await page.keyboard.press('Enter');
  await expect(page.getByRole('status', { name: 'Saved' })).toHaveText('QQ-117 is on stand 1.');
  await expect(takes(page, 'QQ-117')).toHaveAccessibleName('Take QQ-117 from stand 1');
});

async function onTelephone(browser: Browser): Promise<Page> {
  const context = await browser.newContext({
    hasTouch: true,
    isMobile: true,
    viewport: { width: 360, height: 780 },
  });
  return context.newPage();
}

test('By finger at 360 px an aircraft is dragged without scrolling the page, or pressed and then the stand', async ({
  browser,
}) => {
  const page = await onTelephone(browser);
  await signIn(page, 'manager');
  await page.goto('/floor');
  await expect(page.getByText(/^Taken today/)).toBeVisible();
  const handle = takes(page, 'QQ-117');
  await handle.evaluate((element) => element.scrollIntoView({ block: 'center' }));
  const scrolled = () => page.evaluate<number>('scrollY');
  const before = await scrolled();
  const box = await handle.boundingBox();
  const from = { x: (box?.x ?? 0) + (box?.width ?? 0) / 2, y: (box?.y ?? 0) + 14 };
  const goal = await middleOf(page, '2');
  const finger = await page.context().newCDPSession(page);
  const touch = (type: 'touchStart' | 'touchMove' | 'touchEnd', at?: { x: number; y: number }) =>
    finger.send('Input.dispatchTouchEvent', { type, touchPoints: at ? [at] : [] });
  await touch('touchStart', from);
  for (let step = 1; step <= 10; step += 1)
    await touch('touchMove', {
      x: from.x + ((goal.x - from.x) * step) / 10,
      y: from.y + ((goal.y - from.y) * step) / 10,
    });
  await expect(inHand(page)).toContainText(/^QQ-117 fits stand 2/);
  await expect(inHand(page)).toBeInViewport();
  await axeFree(page);
  expect(await scrolled()).toBe(before);
  await touch('touchEnd');
  await expect(form(page)).toBeVisible();
  await axeFree(page);
  await form(page).getByRole('button', { name: 'Leave it as it is' }).click();

  await handle.evaluate((element) => element.scrollIntoView({ block: 'center' }));
  await handle.tap({ position: { x: 17, y: 14 } });
  await expect(inHand(page)).toHaveText('QQ-117 stays on stand 1.');
  const stand = await middleOf(page, '2');
  await page.touchscreen.tap(stand.x, stand.y);
  await expect(form(page).getByLabel('Goes to')).toBeVisible();
  await form(page).getByRole('button', { name: 'Move it on the drawing' }).click();
  await expect(page.getByRole('status', { name: 'Saved' })).toHaveText('QQ-117 is on stand 2.');
  await page.context().close();
});

test('Of two people who drag one aircraft the second hears who moved it, when, and where it stands', async ({
  browser,
}) => {
  const [one, other] = await Promise.all(
    [1, 2].map(async () => (await browser.newContext()).newPage()),
  );
  if (one === undefined || other === undefined) throw new Error('There are two pages');
  await open(one, 'manager');
  await open(other, 'front desk');
  await dragTo(one, takes(one, 'QQ-117'), await middleOf(one, '1'));
  await dragTo(other, takes(other, 'QQ-117'), await middleOf(other, '5'));
  await expect(form(other)).toBeVisible();
  await form(one).getByRole('button', { name: 'Move it on the drawing' }).click();
  await expect(takes(one, 'QQ-117')).toHaveAccessibleName('Take QQ-117 from stand 1');
  await form(other).getByRole('button', { name: 'Move it on the drawing' }).click();
  await expect(other.getByRole('alert').filter({ hasText: 'Somebody was faster' })).toContainText(
    /QQ-117 was moved or planned anew by Bastian Ormeley on .+: it stands on stand 1 now\. Your change was not saved\./,
  );
  // Nothing half-done, and the drawing is the new one; pressed again in that knowledge, it is moved.
  await expect(takes(other, 'QQ-117')).toHaveAccessibleName('Take QQ-117 from stand 1');
  await axeFree(other);
  await form(other).getByRole('button', { name: 'Move it on the drawing' }).click();
  await expect(takes(other, 'QQ-117')).toHaveAccessibleName('Take QQ-117 from stand 5');
  await dragTo(other, takes(other, 'QQ-117'), await middleOf(other, '1'));
  await form(other).getByRole('button', { name: 'Move it on the drawing' }).click();
  await expect(takes(other, 'QQ-117')).toHaveAccessibleName('Take QQ-117 from stand 1');
  await Promise.all([one.context().close(), other.context().close()]);
});

test('An aircraft larger than the hangar is drawn as large as it is, and fits nowhere', async ({
  page,
}) => {
  await page.route('**/graphql', async (route) => {
    if (!(route.request().postData() ?? '').includes('query Floor {')) return route.fallback();
    const fetched = await route.fetch();
    const body = await fetched.json().catch(() => null);
    // The page left while it was asked: nobody waits for the answer.
    if (body === null) return route.abort();
    const answer = body as Parameters<typeof withSize>[0];
    const larger = withSize(answer, 'QQ-117', { parkedLengthMm: 40_000, parkedWidthMm: 42_000 });
    return route.fulfill({ json: larger });
  });
  await open(page, 'manager');
  const hangar = await drawnSize(page.locator('[data-scale="hangar"]'));
  const craft = await drawnSize(page.locator('[data-craft="QQ-117"] rect').first());
  expect(Math.abs(craft.along - (hangar.along / 35) * 40)).toBeLessThanOrEqual(1);
  expect(Math.abs(craft.across - (hangar.along / 35) * 42)).toBeLessThanOrEqual(1);
  const beyond = await page.evaluate<number>('document.documentElement.scrollWidth - innerWidth');
  expect(beyond).toBeLessThanOrEqual(0);
  await takes(page, 'QQ-117').focus();
  await page.keyboard.press('Enter');
  await page.keyboard.press('ArrowRight');
  await expect(inHand(page)).toContainText(
    /^Cannot plan QQ-117 on stand \d: parked it is 40\.0 m long/,
  );
  await page.keyboard.press('Enter');
  await expect(form(page)).toHaveCount(0);
  await page.setViewportSize({ width: 360, height: 780 });
  const narrow = await page.evaluate<number>('document.documentElement.scrollWidth - innerWidth');
  expect(narrow).toBeLessThanOrEqual(0);
});

test('Loading, no hangar, no answer and an empty floor are drawn as such', async ({ page }) => {
  await signIn(page, 'manager');
  let answers: 'later' | 'none' | 'away' | 'empty' = 'later';
  let release = () => {};
  const released = new Promise<void>((resolve) => {
    release = resolve;
  });
  await page.route('**/graphql', async (route) => {
    if (!(route.request().postData() ?? '').includes('query Floor {')) return route.fallback();
    if (answers === 'later') await released;
    if (answers === 'away')
      return route.fulfill({
        status: 422,
        json: { error: { code: 'BAD_INPUT', message: 'The floor cannot be read.' } },
      });
    if (answers === 'none')
      return route.fulfill({
        json: {
          data: {
            floor: { __typename: 'Refusal', message: 'There is no such hangar in this shop.' },
          },
        },
      });
    const answer = (await (await route.fetch()).json()) as Parameters<typeof withSize>[0];
    if (answers === 'empty') for (const stand of answer.data.floor.stands) stand.stay = null;
    return route.fulfill({ json: answer });
  });
  await page.goto('/floor');
  await expect(page.getByText('Measuring the hangar')).toBeVisible();
  await axeFree(page);
  answers = 'none';
  release();
  await expect(page.getByText(/No hangar is laid out/)).toBeVisible();
  await axeFree(page);
  answers = 'away';
  await page.goto('/floor');
  await expect(page.getByText('The floor cannot be read.')).toBeVisible();
  await axeFree(page);
  const again = page.waitForRequest((request) =>
    (request.postData() ?? '').includes('query Floor {'),
  );
  await page.getByRole('button', { name: 'Ask again' }).click();
  await again;
  // The sheet reads anew by itself, too: from here on whoever asks first is answered.
  answers = 'empty';
  await page
    .getByRole('button', { name: 'Ask again' })
    .click({ timeout: 5000 })
    .catch(() => {});
  await expect(page.getByText('Nothing stands on the floor.')).toBeVisible();
  await axeFree(page);
});

test('The floor prints on one sheet of A4, lying', async ({ page }) => {
  await open(page, 'manager');
  const pdf = (await page.pdf({ preferCSSPageSize: true })).toString('latin1');
  expect(pdf.match(/\/Type\s*\/Page\b(?!s)/g)?.length).toBe(1);
  const [, width, height] = /\/MediaBox\s*\[\s*0 0 ([\d.]+) ([\d.]+)\s*\]/.exec(pdf) ?? [];
  // A4 is 210 by 297 mm (ISO 216), 72 points an inch.
  expect(Math.abs(Number(width) - (297 / 25.4) * 72)).toBeLessThan(1);
  expect(Math.abs(Number(height) - (210 / 25.4) * 72)).toBeLessThan(1);
});

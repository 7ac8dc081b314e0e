import { expect, type Page, test } from '@playwright/test';
import { axeFree, signIn, signInInstead } from './people.ts';

/** Directives, parts, times, trips and deadlines of an aircraft, by the people who see to them. */
test.describe.configure({ mode: 'serial', timeout: 120_000 });

let page: Page;
test.beforeAll(async ({ browser }) => {
  page = await (await browser.newContext({ viewport: { width: 1440, height: 860 } })).newPage();
});
test.afterAll(() => page.context().close());

/** As it stands at the desk and on a telephone; a picture of both for whoever looks. */
async function looks(name: string): Promise<void> {
  for (const width of [1440, 360]) {
    await page.setViewportSize({ width, height: 860 });
    await axeFree(page);
    const beyond = await page.evaluate<number>('document.documentElement.scrollWidth - innerWidth');
    expect(beyond, `${name} at ${width} px`).toBeLessThanOrEqual(0);
    await page.screenshot({ path: test.info().outputPath(`${name}-${width}.png`), fullPage: true });
  }
  await page.setViewportSize({ width: 1440, height: 860 });
}

test('An inspector enters a directive and sees at once whom it reaches', async () => {
  await signIn(page, 'inspector');
  await page.goto('/records/directives');
  const list = page.getByRole('table', { name: /^Entered here/ });
  await expect(list).toContainText('QQ-117');
  await page.locator('summary', { hasText: 'Enter a directive' }).click();
  const form = page.getByRole('form', { name: 'A directive or a bulletin' });
  await form.getByLabel('Who issued it').fill('Test office');
  await form.getByLabel('Number', { exact: true }).fill('T-99');
  await form.getByLabel('Date of this revision').fill('2026-01-20');
  await form.getByLabel('Takes effect on').fill('2026-01-20');
  await form.getByLabel('What it is about').fill('Tail rotor gearbox plug');
  await form.getByLabel('What it asks to be done').fill('Look for chips, paragraph (f)');
  await form.getByLabel('First by time in service').fill('9000');
  await form.getByLabel('Serial numbers').fill('U0142-U0149');
  await form.getByLabel('Model').selectOption({ label: 'Marrowby Dunlin 4' });
  await looks('directive-form');
  await form.getByLabel('Serial numbers').fill('U0149 to U0142');
  await form.getByRole('button', { name: 'Enter it' }).click();
  await expect(form.getByRole('alert')).toContainText('runs backwards');
  await form.getByLabel('Serial numbers').fill('U0142 to U0149');
  await form.getByRole('button', { name: 'Enter it' }).click();
  await expect(list).toContainText('T-99');
  await expect(list.getByRole('row', { name: /T-99/ })).toContainText('QQ-142 (to decide)');
  await looks('directives');
});

test('and decides on it by name; then it falls due', async () => {
  await page.getByRole('row', { name: /T-99/ }).getByRole('link', { name: 'QQ-142' }).click();
  const part = page.getByRole('region', { name: 'Directives and bulletins' });
  const line = part.getByRole('listitem').filter({ hasText: 'T-99' });
  await expect(line).toContainText('serial U0142 lies within U0142 to U0149');
  await line.locator('summary').click();
  await line.getByLabel('Why').fill('Serial number on the plate');
  await line.getByRole('button', { name: 'It applies' }).click();
  await expect(line).toContainText('Decided by Hesper Lyle');
  await expect(page.getByRole('region', { name: 'What falls due' })).toContainText(
    'Tail rotor gearbox plug',
  );
  await looks('aircraft');
});

test('A meter that goes backwards is questioned, and taken with a reason', async () => {
  const times = page.getByRole('region', { name: 'Time in service' });
  await times.locator('summary', { hasText: 'Read a meter' }).click();
  const form = times.getByRole('form', { name: 'A meter reading' });
  await form.getByLabel('It shows').fill('1542.6');
  await form.getByRole('button', { name: 'Record the reading' }).click();
  await expect(form.getByRole('alert')).toContainText('goes backwards');
  await form.getByLabel('Why it is right').fill('The last figure was rounded up');
  await form.getByRole('button', { name: 'Record the reading' }).click();
  await expect(times.getByRole('table')).toContainText('The last figure was rounded up');
  await times.locator('summary', { hasText: 'list of flights' }).click();
  const list = times.getByRole('form', { name: 'A list of flights' });
  await list.getByLabel('A list of flights').setInputFiles({
    name: 'flights.csv',
    mimeType: 'text/csv',
    buffer: Buffer.from('date,flight_time\n2026-02-29,1.0\n'),
  });
  await list.getByRole('button', { name: 'Take it in' }).click();
  await expect(list.getByRole('alert')).toContainText('Line 2, date: “2026-02-29” is no day');
  await looks('times');
});

test('A planned trip says what falls due before the return, and keeps nothing', async () => {
  const due = page.getByRole('region', { name: 'What falls due' });
  await due.locator('summary', { hasText: 'If it goes on a trip' }).click();
  const form = due.getByRole('form', { name: 'If it goes on a trip' });
  const day = (ahead: number) =>
    new Date(Date.now() + ahead * 86_400_000).toISOString().slice(0, 10);
  await form.getByLabel('Leaves on').fill(day(2));
  await form.getByLabel('Back on').fill(day(700));
  await form.getByLabel('Hours flown until then').fill('200');
  await form.getByRole('button', { name: /^What falls due before/ }).click();
  await expect(form.getByRole('status')).toContainText('Annual inspection');
  await looks('trip');
});

test('A part comes off with its time, lies on the shelf, and is fitted elsewhere', async () => {
  const parts = page.getByRole('region', { name: 'Parts with times of their own' });
  const gearbox = parts.getByRole('listitem').filter({ hasText: 'gearbox' }).first();
  await gearbox.locator('summary').click();
  await gearbox.getByLabel(/^Why, in what condition/).fill('Sent to another aircraft, tagged');
  // It is life-limited: 14 CFR 43.10(c) asks what becomes of it.
  await expect(gearbox.getByRole('button', { name: 'It is off' })).toBeDisabled();
  await gearbox.getByLabel('What becomes of it').selectOption('tag');
  await gearbox.getByRole('button', { name: 'It is off' }).click();
  await expect(gearbox).toHaveCount(0);
  await page.goto('/records/parts');
  const first = page.getByRole('table', { name: 'On the shelf first' }).getByRole('row').nth(1);
  await expect(first).toContainText('on the shelf');
  await looks('parts');
  await first.getByRole('link').click();
  await expect(page.getByRole('table', { name: /^Where it was/ })).toContainText(
    'Sent to another aircraft',
  );
  await looks('part');
});

test('The desk sees the deadlines that press, and says that a manual was looked up', async () => {
  await page.goto('/records/deadlines');
  await page.locator('summary', { hasText: 'Maintenance data' }).click();
  const form = page.getByRole('form', { name: 'Maintenance data to look up' });
  await form.getByLabel('Which manual').fill('Maker’s manual, invented');
  await form.getByLabel('Revision found').fill('12');
  await form.getByLabel('Look again').fill('20');
  await form.getByRole('button', { name: 'Add it' }).click();
  await expect(page.getByRole('listitem').filter({ hasText: 'revision 12' })).toBeVisible();
  await looks('deadlines');
  await signInInstead(page, 'front desk');
  await page.goto('/desk');
  await page.getByRole('link', { name: /^Deadlines:/ }).click();
  await expect(page.getByRole('heading', { level: 1, name: 'Deadlines' })).toBeVisible();
});

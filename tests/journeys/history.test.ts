import { expect, type Page, test } from '@playwright/test';
import { axeFree, signIn, signInInstead } from './people.ts';

test.describe.configure({ timeout: 180_000 });

const HEADER =
  'completed_on,task,jasc,standard_hours,model,registration,mechanic,hours,censored,clearance_mm,sight,posture,reach,swing_deg,held,locked_fasteners';
const row = (hours: string | number, task = 'Journey: mend cowl latch') =>
  `2026-03-09,${task},7110,1.6,Petrel Two,QQ-117,Ann Other,${hours},0,,,,,,,`;
const fileOf = (...rows: string[]) => [HEADER, ...rows, ''].join('\n');

const choose = (page: Page, name: string, text: string) =>
  page
    .getByLabel('Choose a history file')
    .setInputFiles({ name, mimeType: 'text/csv', buffer: Buffer.from(text) });

/** What the sheet refuses; the router's own announcer outside of it is an alert too. */
const alertOf = (page: Page) => page.getByRole('main').getByRole('alert');

/** The row of a task in what the estimates stand on. */
const jobsOf = (page: Page, task: string) => page.getByRole('row').filter({ hasText: task });

test('A manager imports a file with three bad rows: sees them, imports the rest, and sees it counted', async ({
  page,
}) => {
  await signIn(page, 'manager');
  await page.goto('/hours');
  await choose(
    page,
    'old-jobs.csv',
    fileOf(row(2), row('lots'), row(2.5), row(-1), row(3), row(''), row(2.25)),
  );
  const desk = page.getByRole('region', { name: 'History file old-jobs.csv' });
  await expect(desk).toContainText('4 rows are good, 3 are refused.');
  const refused = desk.getByRole('table', { name: 'Refused' });
  await expect(refused.getByRole('row')).toHaveCount(4);
  await expect(refused).toContainText('hours “lots” is not a number. Write hours above 0');
  await expect(refused).toContainText('hours is blank');
  await axeFree(page);
  const [download] = await Promise.all([
    page.waitForEvent('download'),
    desk.getByRole('link', { name: /3 refused rows as a file/ }).click(),
  ]);
  expect(download.suggestedFilename()).toBe('old-jobs.refused.csv');

  // By keyboard from here.
  await desk.getByRole('button', { name: 'Import the 4 good rows' }).press('Enter');
  await expect(desk).toContainText('4 jobs added to the shop’s history.');
  const imports = page.getByRole('table', { name: 'History files, newest first' });
  await expect(imports.getByRole('row').nth(1)).toContainText(/old-jobs\.csv[\s\S]*Bastian/);
  await page.locator('summary', { hasText: 'tasks done less often' }).click();
  await expect(jobsOf(page, 'Journey: mend cowl latch')).toContainText(/4[\s\S]*2\.4/);
  await axeFree(page);

  // The same file again is known.
  await choose(page, 'old-jobs.csv', fileOf(row(2), row(2.5), row(3), row(2.25)));
  await expect(desk).toContainText('All good ones are in the shop’s history already.');
  await expect(desk.getByRole('button', { name: /^Import the/ })).toHaveCount(0);
  await desk.getByRole('button', { name: 'Import nothing' }).click();
  await expect(page.getByText('Put away. Nothing of it was imported.')).toBeVisible();
});

test('An import of 20,000 rows is seen to move, outlives a reload, and leaves nothing when it is stopped', async ({
  page,
}) => {
  const long = (name: string) =>
    fileOf(
      ...Array.from({ length: 20_000 }, (_, index) =>
        row((1 + index / 1e5).toFixed(5), `${name} ${index % 50}`),
      ),
    );
  await signIn(page, 'manager');
  await page.goto('/hours');
  const progress = page.getByRole('progressbar');
  const saved = async () =>
    (await progress.count()) === 0
      ? 0
      : Number(
          (await progress.getAttribute('aria-valuenow', { timeout: 1000 }).catch(() => 0)) ?? 0,
        );

  await choose(page, 'stopped.csv', long('Journey: stopped'));
  await page
    .getByRole('button', { name: 'Import the 20,000 good rows' })
    .click({ timeout: 60_000 });
  // At once: a fast machine has them all within a second, and what is in the history stays there.
  await page.getByRole('button', { name: 'Stop, import nothing' }).click();
  await expect(page.getByText('Put away. Nothing of it was imported.')).toBeVisible();

  await choose(page, 'long.csv', long('Journey: long'));
  await page
    .getByRole('button', { name: 'Import the 20,000 good rows' })
    .click({ timeout: 60_000 });
  const desk = page.getByRole('region', { name: 'History file long.csv' });
  const added = desk.getByText('20,000 jobs added');
  // On a fast machine they may all be there before the sheet has asked how far it is.
  const told: number[] = [];
  await expect
    .poll(
      async () => {
        told.push(await saved());
        return told.at(-1)! > 0 || (await added.isVisible());
      },
      { intervals: [20], timeout: 60_000 },
    )
    .toBe(true);
  await page.reload();
  await expect(desk).toContainText(/rows saved|20,000 jobs added/);
  await expect
    .poll(
      async () => {
        told.push(await saved());
        return added.isVisible();
      },
      { intervals: [50], timeout: 60_000 },
    )
    .toBe(true);
  await expect(desk).toContainText('20,000 jobs added to the shop’s history.');
  // How far it is never falls, and is never more than there are.
  const far = told.filter((rows) => rows > 0);
  expect(far).toEqual([...far].sort((one, other) => one - other));
  expect(Math.max(0, ...far)).toBeLessThanOrEqual(20_000);
  const imports = page.getByRole('table', { name: 'History files, newest first' });
  await expect(imports).toContainText('long.csv');
  await expect(imports).not.toContainText('stopped.csv');
  await desk.getByRole('button', { name: 'Put it away' }).click();
  await expect(page.getByText('Put away. Its 20,000 jobs stay in the history.')).toBeVisible();
});

test('A file that is none is refused in a sentence; the front desk reads, and imports nothing', async ({
  page,
}) => {
  await signIn(page, 'manager');
  await page.goto('/hours');
  await choose(page, 'book.csv', 'PK\u0003\u0004workbook');
  await expect(alertOf(page)).toContainText('book.csv is a spreadsheet’s own workbook');
  await choose(page, 'semicolons.csv', fileOf(row(2)).replaceAll(',', ';'));
  await expect(page.getByText(/keeps its columns apart by semicolons/)).toBeVisible();
  await page.getByRole('button', { name: 'Put it away' }).click();
  await signInInstead(page, 'front desk');
  await page.goto('/hours');
  await expect(page.getByRole('heading', { name: 'Imported history' })).toBeVisible();
  await expect(page.getByText('The manager imports past jobs')).toBeVisible();
  await expect(page.getByLabel('Choose a history file')).toHaveCount(0);
});

test('What was quoted stands against the clock, narrowed by an address that can be sent on', async ({
  page,
}) => {
  await signIn(page, 'front desk');
  await page.goto('/hours');
  await expect(page.getByText(/came out between P10 and P90; eight in ten should/)).toBeVisible();
  const model = page.getByLabel('Model');
  const words = await model.locator('option').nth(1).textContent();
  await model.selectOption({ index: 1 });
  await expect(page).toHaveURL(/\/hours\?model=/);
  await page.reload();
  await expect(model.locator('option:checked')).toHaveText(words ?? '');
  await page.locator('summary', { hasText: 'as a table' }).click();
  await expect(page.getByRole('table', { name: 'Coverage by month' })).toBeVisible();
  await axeFree(page);
  await page.goto('/hours?from=2026-09&to=2026-02');
  await expect(alertOf(page)).toContainText('needed is a to that is no earlier');
  await page.getByRole('button', { name: 'Compare all' }).click();
  await expect(page).toHaveURL(/\/hours$/);
  await expect(page.getByText(/came out between P10 and P90; eight in ten should/)).toBeVisible();
});

import { expect, type Page, test } from '@playwright/test';
import { choose, press, retype, tabTo } from './by-keyboard.ts';
import {
  atBench,
  comeToWork,
  initialEach,
  readCautions,
  signEachBook,
  takePhoto,
} from './loop-hands.ts';
import { axeFree, leave, signIn } from './people.ts';

test.afterAll(leave);

/**
 * The loop with one aircraft, by the people who do it, each in a browser of their own:
 * quote → authorise → arrive → clock → find → assess → offer → authorise → correct → inspect → sign → release → invoice.
 */
test.describe.configure({ mode: 'serial' });

let desk: Page;
let mechanic: Page;
let inspector: Page;
let order: string;

test.beforeAll(async ({ browser }) => {
  ({ desk, mechanic, inspector } = await comeToWork(browser));
});

test('The front desk quotes an oil service by keyboard alone, and sends it', async () => {
  await desk.goto('/desk');
  await desk.keyboard.press('Tab');
  await desk.getByRole('link', { name: 'New quote' }).focus();
  await desk.keyboard.press('Enter');
  const aircraft = desk.getByRole('combobox', { name: 'Aircraft' });
  await expect(aircraft).toBeFocused();
  await desk.keyboard.type('170');
  await desk.keyboard.press('Enter');
  await expect(desk.getByRole('combobox', { name: 'To whom' })).toBeEnabled();
  const pack = desk.getByRole('radio', { name: /50-hour oil service/ });
  await choose(desk, pack);
  await desk.getByRole('combobox', { name: 'To whom' }).focus();
  await desk.keyboard.type('Petra');
  await expect(desk.getByText('Total, net')).toBeVisible();
  await expect(desk.getByRole('region', { name: 'When it is ready' })).toContainText(
    /four in five by/i,
  );
  await axeFree(desk);
  await desk.keyboard.press('Control+Enter');
  await expect(desk.getByRole('heading', { level: 1, name: /^Quote \d+$/ })).toBeVisible();
  await expect(desk.getByText('sent, waits')).toBeVisible();
});

test('The front desk records the yes and its ceiling by keyboard alone, and the job is there', async () => {
  await expect(desk.getByLabel('What was read out')).not.toHaveValue('');
  await press(desk, desk.getByRole('radio', { name: /Go ahead/ }), 'Space');
  await retype(desk, desk.getByLabel('Up to, net'), '900.00');
  await axeFree(desk);
  await press(desk, desk.getByRole('button', { name: 'Record the yes' }));
  const link = desk.getByRole('link', { name: /^Order \d+$/ });
  await expect(link).toBeVisible();
  order = ((await link.textContent()) ?? '').replace(/\D/g, '');
  await press(desk, link);
  await expect(desk.getByRole('heading', { level: 1, name: new RegExp(order) })).toBeVisible();
});

test('The aircraft arrives, with what its pilot says and what came with it, by keyboard alone', async () => {
  const arrival = desk.getByRole('region', { name: 'Receive the aircraft' });
  await retype(desk, arrival.getByLabel('Tachometer'), '7741.20');
  await tabTo(desk, arrival.getByLabel('Squawk 1'));
  await desk.keyboard.type('Smells of something warm after ten minutes, cabin heat on.');
  await tabTo(desk, arrival.getByLabel('What came with it'));
  await desk.keyboard.type('Keys, two');
  await desk.keyboard.press('Enter');
  await desk.keyboard.type('Airframe book');
  await axeFree(desk);
  await press(desk, arrival.getByRole('button', { name: /Receive|here/i }).last());
  await expect(arrival).toBeHidden();
  await expect(desk.getByText('Smells of something warm after ten minutes')).toBeVisible();
});

test('The front desk reads when it is ready, and a part that comes late moves the day', async () => {
  const ready = desk.getByRole('region', { name: 'When it is ready' });
  await expect(ready).toContainText('four in five by');
  await expect(ready).toContainText('Said when it arrived');
  await ready.getByText('Note when a part or an answer is expected').click();
  await ready.getByLabel('For which item').selectOption({ index: 1 });
  await ready.getByLabel('What is expected').fill('The oil filter');
  const day = new Date(Date.now() + 40 * 86_400_000).toISOString().slice(0, 10);
  await ready.getByLabel('On which day').fill(day);
  await ready.getByLabel('Who said so').fill('the supplier, on the telephone');
  await axeFree(desk);
  await ready.getByRole('button', { name: 'Note it' }).click();
  await expect(ready.getByRole('list', { name: 'What is expected' })).toContainText(
    'The oil filter for item 1',
  );
  await expect(ready).toContainText('the wait for The oil filter');
});

test('A mechanic starts, switches and stops the clock with one touch each, cautions first', async () => {
  await mechanic.goto('/bench');
  const mine = atBench(mechanic, /QQ-170/);
  const rows = mine.getByRole('button', { name: /^Start:/ });
  await expect(rows.first()).toBeVisible();
  await axeFree(mechanic);
  const start = async (index: number) => {
    await rows.nth(index).click();
    await readCautions(mechanic);
  };
  await start(0);
  const clock = mechanic.getByRole('region', { name: 'Your clock' });
  await expect(clock).toContainText('QQ-170');
  await start(0);
  await expect(clock).toContainText('QQ-170');
  await mechanic.getByRole('button', { name: 'Stop', exact: true }).click();
  await expect(clock).toContainText('Your clock is stopped');
});

test('A mechanic notes a finding with a photo from the item, at 360 px', async () => {
  await mechanic.getByRole('link', { name: 'Found something' }).click();
  await takePhoto(mechanic, 'streak.jpg');
  const select = mechanic.getByLabel('On which aircraft');
  if (await select.isVisible().catch(() => false)) {
    const option = await select.locator('option', { hasText: 'QQ-170' }).getAttribute('value');
    await select.selectOption(option);
  }
  await mechanic.getByLabel('What it is').fill('Grey streak at the exhaust joint');
  await mechanic.getByLabel('Unairworthy').check();
  await axeFree(mechanic);
  const kept = mechanic.waitForResponse(
    (response) => (response.request().postData() ?? '').includes('NoteFinding') && response.ok(),
  );
  await mechanic.getByRole('button', { name: 'Note it' }).click();
  await kept;
  await expect(mechanic.getByRole('heading', { name: /QQ-170/ })).toBeVisible();
});

test('The inspector assesses the finding in words that the owner understands', async () => {
  await inspector.goto('/records');
  await inspector.getByRole('link', { name: new RegExp(`^${order} · QQ-170`) }).click();
  const finding = inspector
    .getByRole('article')
    .filter({ hasText: 'Grey streak at the exhaust joint' });
  await expect(finding.getByRole('img')).toBeVisible();
  await finding
    .getByLabel('What it means')
    .fill('Exhaust gas comes out where it should not and can reach the cabin heat.');
  await finding.getByRole('button', { name: 'Record the assessment' }).click();
  await expect(finding.getByText('unairworthy, assessed')).toBeVisible();
  await axeFree(inspector);
});

test('The front desk prices it, offers it, and records that its owner says go ahead', async () => {
  await desk.reload();
  await desk.getByRole('link', { name: 'Price it' }).click();
  await expect(desk.getByRole('heading', { level: 1 })).toBeVisible();
  await desk.getByRole('combobox', { name: 'Add a task' }).fill('exhaust collector');
  await expect(desk.getByRole('listbox').getByRole('option')).toHaveCount(1);
  await desk.keyboard.press('Enter');
  await desk
    .getByRole('combobox', { name: 'To whom' })
    .selectOption({ label: 'Petra Winnowby (operator, up to 3,500.00)' });
  await expect(desk.getByText('nine in ten should come out under')).toBeVisible();
  await axeFree(desk);
  await desk.getByRole('button', { name: 'Send', exact: true }).click();
  await expect(desk.getByRole('heading', { level: 1, name: /^Quote \d+$/ })).toBeVisible();
  await desk.getByLabel('Go ahead').check();
  await desk.getByRole('button', { name: 'Record the yes' }).click();
  await expect(desk.getByRole('link', { name: `Order ${order}` })).toBeVisible();
});

test('The mechanic finishes every item, the correction among them', async () => {
  await mechanic.goto('/bench');
  const mine = atBench(mechanic, /QQ-170/);
  const sheets = mine.getByRole('link', { name: /^Sheet of/ });
  // The list begins as this device knew it last; the correction comes with the shop's answer.
  await expect(sheets.filter({ hasText: 'Replace exhaust collector' })).toBeVisible();
  for (let left = await sheets.count(); left > 0; left -= 1) {
    await sheets.first().click();
    await mechanic.getByRole('button', { name: 'Start the clock' }).click();
    await readCautions(mechanic);
    await expect(
      mechanic.getByRole('button', { name: 'Stop the clock', exact: true }),
    ).toBeVisible();
    await mechanic.getByLabel('Work done').fill('Done by the current manual; found in order.');
    if (left === 1) {
      await axeFree(mechanic);
      // Time is clocked in whole seconds; the invoice is to bill some.
      await mechanic.waitForTimeout(1500);
    }
    await mechanic.getByRole('button', { name: 'Stop the clock: it is done' }).click();
    await expect(mechanic.getByRole('region', { name: 'Your clock' })).toContainText(
      'Your clock is stopped',
    );
    await expect(sheets).toHaveCount(left - 1);
  }
});

test('The inspector initials item by item, and cannot sign while anything is missing', async () => {
  await inspector.reload();
  await expect(inspector.getByRole('button', { name: 'Sign this entry' })).toBeHidden();
  await expect(inspector.getByRole('region', { name: 'What is missing' }).first()).toBeVisible();
  await axeFree(inspector);
  const initials = inspector.getByRole('button', { name: /^Initial: / });
  await expect(initials).toHaveCount(5);
  await initialEach(inspector, initials);
  await expect(
    inspector.getByText('it wants a second pair of eyes, and not yours', { exact: false }),
  ).toBeVisible();
});

test('A second mechanic, who did not do the work, looks at the critical item', async ({
  browser,
}) => {
  const second = await (
    await browser.newContext({ viewport: { width: 360, height: 780 } })
  ).newPage();
  await signIn(second, 'second mechanic');
  await second.goto('/bench');
  const mine = atBench(second, /QQ-170/);
  await mine
    .getByText(/done, not inspected/)
    .first()
    .click();
  await mine.getByRole('link', { name: /Replace exhaust collector/ }).click();
  const look = second.getByRole('region', { name: 'Second look' });
  await expect(look).toBeVisible();
  await axeFree(second);
  await look.getByRole('button', { name: 'I looked at it, and it is right' }).click();
  await expect(look).toBeHidden();
  await second.context().close();
});

test('The inspector signs each book by typing the name, and releases the aircraft', async () => {
  await inspector.reload();
  const release = inspector.getByRole('button', { name: /^Release QQ-170/ });
  await signEachBook(inspector, release);
  await axeFree(inspector);
  await release.click();
  await expect(inspector.getByText('released', { exact: false }).first()).toBeVisible();
});

test('The front desk invoices what was agreed and worked, to the cent, and takes the payment, by keyboard alone', async () => {
  await desk.goto('/books');
  await press(desk, desk.getByRole('button', { name: /^Draft the invoice of QQ-170/ }).first());
  await expect(desk.getByRole('button', { name: 'Issue' })).toBeVisible();
  await axeFree(desk);
  await press(desk, desk.getByRole('button', { name: 'Issue' }));
  await press(desk, desk.getByRole('button', { name: /^Issue/ }).last());
  await expect(desk.getByRole('heading', { level: 1, name: /^Invoice \d+/ })).toBeVisible();
  await axeFree(desk);
  // 285.00 flat and 0.1 h of the correction at 96.00, by the demo shop's rule the least that is billed;
  // labour is taxed at 4 % in its own table: 294.60 × 0.04 = 11.784.
  const row = (words: RegExp) => desk.getByRole('row', { name: words });
  await expect(row(/50-hour oil service flat price/)).toContainText('285.00');
  await expect(row(/Replace exhaust collector 0\.1 h/)).toContainText('9.60');
  await expect(row(/^Net /)).toContainText('294.60');
  await expect(row(/^Tax S 4 %/)).toContainText('11.78');
  await expect(row(/^With tax \d/)).toContainText('306.38');
  await press(desk, desk.getByRole('button', { name: 'Record a payment' }));
  await retype(desk, desk.getByLabel('By which way'), 'card');
  await press(desk, desk.getByRole('button', { name: 'Record it' }));
  await expect(row(/Paid, card/)).toContainText('306.38');
  await expect(row(/^Owed/)).toContainText('0.00');
});

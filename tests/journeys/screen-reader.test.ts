import { expect, test } from '@playwright/test';
import { signIn } from './people.ts';

/**
 * What somebody hears who cannot see the sheet: headings, landmarks, names of what can be pressed,
 * and every figure with its unit. Of each tree only what matters is asserted, in its order.
 */

test('A quote is heard as a list of items with hours and prices, then its total in words', async ({
  page,
}) => {
  await signIn(page, 'front desk');
  await page.goto('/desk');
  await page
    .getByRole('link', { name: /QQ-170, Annual or 100-hour inspection/ })
    .last()
    .click();
  await expect(page.getByRole('heading', { level: 1, name: /^Quote \d+$/ })).toBeVisible();
  await expect(page.getByRole('banner')).toMatchAriaSnapshot(`
    - banner:
      - link "Fairlead"
      - navigation "Sheets":
        - link "Floor"
        - link "Front desk"
        - link "Stores"
        - link "Books"
        - link "Hours"
      - button "Sign out"
  `);
  const main = page.getByRole('main');
  await expect(main).toMatchAriaSnapshot(`
    - main:
      - heading /Quote \\d+/ [level=1]
      - table "What is offered, prices in USD, net":
        - rowgroup:
          - row:
            - columnheader "Item"
            - columnheader "Hours, or parts"
            - columnheader "Price"
      - figure:
        - img /Side view of QQ-170.* engine, 16 items/
      - figure /Total, net .*USD/
  `);
  const row = main.getByRole('row', { name: /Replace tyre and tube/ });
  await expect(row).toContainText(/as likely over as under; eight in ten come out under \d/);
  const total = main.getByRole('figure').filter({ hasText: 'Total, net' });
  await expect(total).toContainText(/firm [\d,.]+ USD/);
  await expect(total).toContainText(/come out under [\d,]+ USD/);
  // What may be found is told apart from the offer, each with how often it comes; then the day.
  const found = main.getByRole('region', { name: 'What tends to be found in it' });
  await expect(found.getByRole('row', { name: /Replace rocker cover gasket/ })).toContainText(
    /its long-run share lies between (under 1|\d+) and \d+ %/,
  );
  await expect(main.getByRole('figure', { name: /^Ready, if accepted/ })).toContainText(/hands-on/);
});

test('The bench is heard as a clock, the items by aircraft, and two things to press', async ({
  page,
}) => {
  await signIn(page, 'mechanic');
  const main = page.getByRole('main');
  await expect(main.getByRole('heading', { name: /QQ-117/ })).toBeVisible();
  await expect(main).toMatchAriaSnapshot(`
    - main:
      - heading "Bench" [level=1]
      - region "Your clock":
        - paragraph
      - heading /QQ-117/ [level=2]
      - list:
        - listitem:
          - button /Start:.*/
          - link /Sheet of .+/
      - button "Stop"
      - link "Found something"
  `);
  await expect(main.getByRole('button', { name: /clocked \d+:\d\d hours/ }).first()).toBeVisible();
});

test('The sheet to sign is heard with what is open first, then items, findings, entries, release', async ({
  page,
}) => {
  await signIn(page, 'inspector');
  await page.goto('/records');
  await page.getByRole('link', { name: /QQ-117, 100-hour inspection/ }).click();
  const main = page.getByRole('main');
  await expect(main.getByRole('region', { name: 'What is missing' })).toBeVisible();
  await expect(main).toMatchAriaSnapshot(`
    - main:
      - heading /QQ-117, 100-hour inspection/ [level=1]
      - region "Still open":
        - heading "Still open" [level=2]
        - list:
          - listitem:
            - link /\\d+ (items? (is|are) not finished|findings? (is|are) not assessed)/
      - figure:
        - img /Side view of QQ-117/
      - region "Items":
        - heading "Items" [level=2]
        - heading /Not finished \\d+/ [level=3]
        - list "Not finished"
        - heading /For your initials \\d+/ [level=3]
        - list "For your initials":
          - listitem:
            - group:
              - heading [level=4]
            - button /Initial. \\d+ .+/
      - region "Findings":
        - heading "Findings" [level=2]
        - article:
          - heading [level=3]
      - region "Entries":
        - heading "Entries" [level=2]
        - article /Entry for the .+/:
          - region "What is missing"
      - region "Release":
        - heading "Release" [level=2]
  `);
  const photo = main.getByRole('region', { name: 'Findings' }).getByRole('img').first();
  await expect(photo).toHaveAccessibleName(/\w+ \w+/);
});

test('An invoice is heard with who and for what, its lines, and each sum with its currency', async ({
  page,
}) => {
  await signIn(page, 'manager');
  await page.goto('/books');
  await page.getByRole('link', { name: 'Invoice 411' }).click();
  const main = page.getByRole('main');
  await expect(main.getByRole('table', { name: 'What is billed, before tax' })).toBeVisible();
  await expect(main).toMatchAriaSnapshot(`
    - main:
      - heading "Invoice 411" [level=1]
      - region "From, to and for":
        - heading "From" [level=2]
        - heading "To" [level=2]
        - heading "For" [level=2]
      - table "What is billed, before tax":
        - rowgroup:
          - row:
            - columnheader "What"
            - columnheader "Quantity"
            - columnheader "Each, USD"
            - columnheader "Tax"
            - columnheader "USD"
        - rowgroup
        - rowgroup:
          - row /Net [\\d,]+\\.\\d\\d/
  `);
  await expect(page.getByRole('contentinfo')).toContainText('Invoice 411');
});

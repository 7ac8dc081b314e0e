// npm run --silent money: totals of a quote or an invoice without the server, so that an auditor can add up again.
// Exit codes: 0 answered, 1 refused because of what was given, 2 the command or its surroundings are wrong.
import { fileURLToPath } from 'node:url';
import {
  documentTotals,
  formatAmount,
  type Minor,
  readDocument,
} from '../packages/money/src/index.ts';
import { answer, argumentsOf, runOneOf, tell } from './command-line.ts';
import { jsonOf } from './files.ts';

const usage = `npm run --silent money -- COMMAND …

  total DOCUMENT.json    totals by the rules of EN 16931, of {"currency": "USD", "lines": [{"id": "1", "quantity": "2.4",
                         "unitPrice": "98.75", "taxCategory": "S", "taxRate": "7"}]}; a line may have "priceBaseQuantity",
                         "allowances" and "charges" [{"amount": "7.00"}], the document "allowances" and "charges" with their
                         "taxCategory" and "taxRate", "paid" and "rounding". Every number is a decimal as text.
  --help                 this text`;

function totalCommand(args: readonly string[]): void {
  const { files } = argumentsOf(args, ['DOCUMENT.json']);
  const unused: string[] = [];
  const document = readDocument(jsonOf(files[0]!), (path) => unused.push(path));
  const totals = documentTotals(document);
  if (unused.length > 0) tell(`Not used: ${unused.slice(0, 20).join(', ')}.`);
  const say = (amount: Minor) => formatAmount(amount, totals.currency);
  answer({
    currency: totals.currency,
    lines: totals.lines.map(({ id, net }) => ({ id, net: say(net) })),
    lineSum: say(totals.lineSum),
    allowances: say(totals.allowances),
    charges: say(totals.charges),
    net: say(totals.net),
    tax: totals.tax.map(({ category, rate, base, amount }) => ({
      category,
      rate,
      base: say(base),
      amount: say(amount),
    })),
    taxTotal: say(totals.taxTotal),
    gross: say(totals.gross),
    due: say(totals.due),
  });
}

/** @returns the exit code */
export const moneyCommand = (args: readonly string[]): number =>
  runOneOf({ total: totalCommand }, usage, args);

if (process.argv[1] === fileURLToPath(import.meta.url))
  process.exitCode = moneyCommand(process.argv.slice(2));

// npm run --silent due: what falls due when, without the server, so that an auditor can check it. Exit codes: 0 answered,
// 1 refused because of what was given, 2 the command or its surroundings are wrong.
import { fileURLToPath } from 'node:url';
import {
  type Due,
  readDueRequest,
  standOf,
  writeDay,
} from '../packages/airworthiness/src/index.ts';
import { answer, argumentsOf, runCommand } from './command-line.ts';
import { jsonOf } from './files.ts';

const usage = `npm run --silent due -- REQUEST.json

  {"at": {"date": "2026-03-02", "tis": 1300, "cycles": 4100, "landings": 5210, "starts": 2310},
   "items": [{"id": "100-hour", "rule": "hundred_hour", "last": {"tis": 1234.5, "dueAtTis": 1230}, "enRoute": false}],
   "soon": {"hours": 10, "days": 30}}

  rule       hundred_hour, annual, calendar_months, recurring, life_limit or once
  every      {"hours", "months", "calendarMonths", "days", "cycles", "landings", "starts"}, with "whichever": "first" or
             "last"
  last       {"date", "tis", "cycles", "landings", "starts"} of the last time; for a life limit, of when the part was
             fitted new; "dueAtTis" is when that last time had been due
  limit      {"hours", "cycles", "landings", "starts", "date"} of a life, of what is done once, of the first time, or
             past which nothing is repeated
  enRoute    true where every hour past due was flown to reach where the inspection can be done (14 CFR 91.409(b))

Due dates are aids: the current manual, its limitations and the directives govern.
  --help     this text`;

const inHours = (hundredths: number) => hundredths / 100;

/** With hours and days as the request has them. */
function written({ id, due, limitTis, state, remaining, because }: Due) {
  const { date, tis, ...counts } = due;
  return {
    id,
    due: {
      ...(date !== undefined && { date: writeDay(date) }),
      ...(tis !== undefined && { tis: inHours(tis) }),
      ...counts,
    },
    ...(limitTis !== undefined && { limitTis: inHours(limitTis) }),
    state,
    remaining: {
      ...remaining,
      ...(remaining.hours !== undefined && { hours: inHours(remaining.hours) }),
    },
    because,
  };
}

/** @returns the exit code */
export function due(args: readonly string[]): number {
  if (args.includes('--help')) {
    process.stdout.write(`${usage}\n`);
    return 0;
  }
  return runCommand('due', usage, () => {
    const { files } = argumentsOf(args, ['REQUEST.json']);
    const { at, items, soon } = readDueRequest(jsonOf(files[0]!));
    answer({ items: items.map((item) => written(standOf(item, at, soon))) });
  });
}

if (process.argv[1] === fileURLToPath(import.meta.url))
  process.exitCode = due(process.argv.slice(2));

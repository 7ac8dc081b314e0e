'use client';

import { Empty, Loading } from '../../components/Empty.tsx';
import { ErrorNote } from '../../components/ErrorNote.tsx';
import { aircraftSize, Silhouette } from '../../components/Silhouette.tsx';
import type { QuoteForecastQuery } from '../../graphql/generated/graphql.ts';
import { PromisePart } from '../hangar/promise-part.tsx';
import type { DeskAircraft, DeskPackage } from './catalogue-document.ts';
import { QuoteBody } from './quote-body.tsx';
import { lineView } from './quote-figures.ts';
import type { Wanted } from './use-wanted.ts';

/** What the quote would say, as far as it is known while one types. */
export function ForecastBody({
  asked,
  answer,
  problem,
  aircraft,
  wanted,
  chosen,
}: {
  asked: boolean;
  answer: QuoteForecastQuery['quoteForecast'] | undefined;
  problem: Error | null;
  aircraft: DeskAircraft | undefined;
  wanted: Wanted;
  chosen: DeskPackage | undefined;
}) {
  if (aircraft === undefined) {
    return (
      <Empty draws="sheet">
        Name the aircraft and what is to be done. The price draws itself here as you type.
      </Empty>
    );
  }
  if (!asked) {
    return (
      <Empty
        drawing={
          <Silhouette
            kind={aircraft.model.kind}
            size={aircraftSize(aircraft.model)}
            label={`Side view of ${aircraft.registration}`}
            hairline
          />
        }
      >
        Choose a package or add a task: nothing is priced yet.
      </Empty>
    );
  }
  if (problem !== null) return <ErrorNote head="No price yet">{problem.message}</ErrorNote>;
  if (answer === undefined) return <Loading>Working out the price</Loading>;
  if (answer.__typename === 'Refusal')
    return <ErrorNote head="No price yet">{answer.message}</ErrorNote>;

  const jascOf = new Map([
    ...(chosen?.tasks ?? []).map(({ task }) => [task.id, task.jasc] as const),
    ...wanted.tasks.map(({ id, jasc }) => [id, jasc] as const),
  ]);
  const partOf = new Map(wanted.parts.map((part) => [part.id, part]));
  const { currency, likely, high, tax, hours, withFindings, billedAs } = answer;
  return (
    <>
      <QuoteBody
        aircraft={aircraft}
        figures={{
          currency,
          likely: BigInt(likely),
          high: BigInt(high),
          tax: BigInt(tax),
          hours,
          billedAs,
          withFindings: withFindings ?? null,
        }}
        lines={answer.lines.map((line) =>
          lineView(line, {
            jasc: line.taskId === null ? null : (jascOf.get(line.taskId) ?? '0000'),
            part:
              line.partId === null ? null : (partOf.get(line.partId) ?? { number: '', unit: '' }),
          }),
        )}
      />
      <PromisePart promise={answer.promise} parts={wanted.parts} />
    </>
  );
}

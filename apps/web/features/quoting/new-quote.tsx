'use client';

import { useQuery } from '@tanstack/react-query';
import { Loading } from '../../components/Empty.tsx';
import { ErrorNote } from '../../components/ErrorNote.tsx';
import { Sheet } from '../../components/Sheet.tsx';
import { request } from '../../graphql/request.ts';
import { useViewer } from '../../lib/use-viewer.ts';
import { DeskCatalogueDocument } from './catalogue-document.ts';
import { FindingToQuoteDocument, TaskToQuoteDocument } from './finding-document.ts';
import { QuoteSheetDocument } from './quote-documents.ts';
import { QuoteForm } from './quote-form.tsx';
import { startFromFinding, startFromQuote, startOf } from './start-quote.ts';

/** From where a quote starts: nothing, an aircraft, a finding, or the newest revision of a quote. */
export interface NewQuoteFrom {
  aircraftId?: string | undefined;
  findingId?: string | undefined;
  /** A task that the finding's correction starts with. */
  taskId?: string | undefined;
  reviseId?: string | undefined;
}

/** The sheet on which a quote is put together. */
export function NewQuote({ aircraftId, findingId, taskId, reviseId }: NewQuoteFrom) {
  const viewer = useViewer();
  const catalogue = useQuery({
    queryKey: ['deskCatalogue'],
    staleTime: 60_000,
    queryFn: () => request(DeskCatalogueDocument),
  });
  const finding = useQuery({
    queryKey: ['findingToQuote', findingId],
    enabled: findingId !== undefined,
    queryFn: async () => (await request(FindingToQuoteDocument, { id: findingId ?? '' })).node,
  });
  const task = useQuery({
    queryKey: ['taskToQuote', taskId],
    enabled: taskId !== undefined,
    queryFn: async () => (await request(TaskToQuoteDocument, { id: taskId ?? '' })).node,
  });
  const quote = useQuery({
    queryKey: ['quote', reviseId],
    enabled: reviseId !== undefined,
    queryFn: async () => (await request(QuoteSheetDocument, { id: reviseId ?? '' })).node,
  });
  const problem = viewer.error ?? catalogue.error ?? finding.error ?? task.error ?? quote.error;
  const waits =
    (findingId !== undefined && finding.data === undefined) ||
    (taskId !== undefined && task.data === undefined) ||
    (reviseId !== undefined && quote.data === undefined);

  if (problem === null && viewer.data !== undefined && catalogue.data !== undefined && !waits) {
    const start =
      quote.data?.__typename === 'Quote'
        ? startFromQuote(quote.data)
        : finding.data?.__typename === 'Finding'
          ? startFromFinding(
              finding.data,
              catalogue.data,
              task.data?.__typename === 'Task' ? [task.data] : [],
            )
          : startOf(aircraftId ?? '', catalogue.data);
    return <QuoteForm viewer={viewer.data} catalogue={catalogue.data} start={start} />;
  }
  return (
    <Sheet here="desk" title="New quote" titleBlock={{ what: 'New quote', cells: [] }}>
      {problem === null ? (
        <Loading>Fetching the shop’s aircraft and packages</Loading>
      ) : (
        <ErrorNote head="Cannot start a quote">{problem.message}</ErrorNote>
      )}
    </Sheet>
  );
}

'use client';

import { useQuery, useQueryClient } from '@tanstack/react-query';
import { Loading } from '../../components/Empty.tsx';
import { ErrorNote } from '../../components/ErrorNote.tsx';
import { NoAnswer } from '../../components/NoAnswer.tsx';
import { Sheet } from '../../components/Sheet.tsx';
import { request } from '../../graphql/request.ts';
import { dayText } from '../../lib/figures/dates.ts';
import { useViewer } from '../../lib/use-viewer.ts';
import { AnswersPart } from '../fleet/answers-part.tsx';
import { OwnersPart } from '../fleet/owners-part.tsx';
import { DirectivesPart } from './directives-part.tsx';
import { DuePart } from './due-part.tsx';
import { PartsPart } from './parts-part.tsx';
import { AircraftRecordsDocument } from './programme-documents.ts';
import { ProofPart } from './proof-part.tsx';
import { ReceivedPart } from './received-part.tsx';
import { RecordsNav } from './records-nav.tsx';
import { StatusPart } from './status-part.tsx';
import { TimesPart } from './times-part.tsx';

const notes = [
  'Due dates and hours shown here are an aid. The owner or operator stays responsible for having the aircraft inspected and its directives complied with in time.',
  "The manufacturer's current maintenance manual, its limitations section and the directives in force govern. Outside the United States other rules apply.",
];

/** One aircraft: what falls due on it, how its records stand, and its records to take along. */
export function AircraftRecords({ id }: { id: string }) {
  const viewer = useViewer();
  const client = useQueryClient();
  const { data, error } = useQuery({
    queryKey: ['aircraftRecords', id],
    queryFn: async () => (await request(AircraftRecordsDocument, { id })).node,
  });
  const problem = viewer.error ?? error;
  if (viewer.data === undefined || data?.__typename !== 'Aircraft') {
    return (
      <Sheet
        here="records"
        viewer={viewer.data?.person ?? null}
        title="Records of an aircraft"
        titleBlock={{ what: 'Records of an aircraft', cells: [] }}
      >
        {problem !== null ? (
          <NoAnswer
            head="No aircraft to show"
            problem={problem}
            onAgain={() => void client.refetchQueries()}
            action={<a href="/records">All orders</a>}
          />
        ) : data === undefined ? (
          <Loading>Fetching the aircraft</Loading>
        ) : (
          <ErrorNote head="No aircraft to show" action={<a href="/records">All orders</a>}>
            There is no such aircraft in this shop.
          </ErrorNote>
        )}
      </Sheet>
    );
  }
  const { person, shop } = viewer.data;
  const { registration, serial, model, due } = data;
  const is = (...roles: typeof person.roles) => roles.some((role) => person.roles.includes(role));
  return (
    <Sheet
      here="records"
      viewer={person}
      title={`Records of ${registration}`}
      notes={notes}
      titleBlock={{
        what: 'What falls due, status, proof',
        cells: [
          { label: 'Aircraft', value: registration, figures: true },
          { label: 'Serial', value: serial, figures: true },
          { label: 'Date', value: dayText(new Date(), shop.timeZone), figures: true },
          {
            label: 'Time in service',
            value:
              due.tisHundredths == null ? 'not read' : `${(due.tisHundredths / 100).toFixed(1)} h`,
            figures: true,
            span: 'half',
          },
          { label: 'Type', value: `${model.maker} ${model.name}`, span: 'half' },
        ],
      }}
    >
      {is('inspector', 'manager') ? <RecordsNav /> : null}
      <DuePart
        aircraft={data}
        quotes={is('front_desk', 'manager')}
        adds={is('front_desk', 'inspector', 'manager')}
        records={is('inspector', 'manager')}
      />
      <TimesPart aircraftId={id} timeZone={shop.timeZone} />
      <DirectivesPart
        aircraftId={id}
        timeZone={shop.timeZone}
        decides={is('inspector', 'manager')}
      />
      <PartsPart aircraftId={id} moves={is('mechanic', 'inspector', 'manager')} />
      <AnswersPart
        aircraftId={data.id}
        currency={shop.currency}
        names={is('front_desk', 'manager')}
      />
      <OwnersPart
        aircraftId={data.id}
        timeZone={shop.timeZone}
        sells={is('front_desk', 'manager')}
      />
      <StatusPart aircraft={data} />
      <ProofPart aircraft={data} exports={is('front_desk', 'inspector', 'manager')} />
      <ReceivedPart aircraft={data} timeZone={shop.timeZone} takesIn={is('inspector', 'manager')} />
    </Sheet>
  );
}

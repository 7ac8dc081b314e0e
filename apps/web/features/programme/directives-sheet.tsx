'use client';

import { useQuery, useQueryClient } from '@tanstack/react-query';
import { Empty, Loading } from '../../components/Empty.tsx';
import { More } from '../../components/More.tsx';
import { NoAnswer } from '../../components/NoAnswer.tsx';
import { PartsList } from '../../components/PartsList.tsx';
import { Sheet } from '../../components/Sheet.tsx';
import { request } from '../../graphql/request.ts';
import { calendarDateText, dayText } from '../../lib/figures/dates.ts';
import { useViewer } from '../../lib/use-viewer.ts';
import { type DirectiveEntered, DirectivesDocument } from './directive-documents.ts';
import { DirectiveForm } from './directive-form.tsx';
import styles from './programme.module.css';
import { kindWords } from './programme-words.ts';
import { RecordsNav } from './records-nav.tsx';

const notes = [
  'This list is what the shop entered. The authority’s own publication counts: look there for what is new, and for what is superseded (14 CFR part 39).',
  'What the program finds is a comparison of numbers. Whether a directive applies is decided by a person who holds the certificate.',
];

/** Every directive, bulletin and maker’s limit that the shop entered, and whom each reaches. */
export function DirectivesSheet() {
  const viewer = useViewer();
  const client = useQueryClient();
  const { data, error } = useQuery({
    queryKey: ['directives'],
    queryFn: () => request(DirectivesDocument),
  });
  const problem = viewer.error ?? error;
  const enters = viewer.data?.person.roles.some((role) => ['inspector', 'manager'].includes(role));
  const models = new Map(data?.aircraft.edges.map(({ node }) => [node.model.id, node.model]));
  return (
    <Sheet
      here="records"
      viewer={viewer.data?.person ?? null}
      title="Directives and bulletins"
      notes={notes}
      titleBlock={{
        what: 'Directives, bulletins and makers’ limits',
        cells:
          data && viewer.data
            ? [
                { label: 'Entered', value: data.directives.length, figures: true },
                {
                  label: 'To decide',
                  value: data.directives.reduce((sum, each) => sum + undecided(each).length, 0),
                  figures: true,
                },
                {
                  label: 'Date',
                  value: dayText(new Date(), viewer.data.shop.timeZone),
                  figures: true,
                },
                { label: 'Shop', value: viewer.data.shop.name, span: 'whole' },
              ]
            : [],
      }}
    >
      <div className={styles.sections}>
        <RecordsNav here="directives" />
        {data && viewer.data ? (
          <>
            {data.directives.length === 0 ? (
              <Empty>
                No directive is entered yet; the first one is compared with every aircraft at once.
              </Empty>
            ) : (
              <Entered directives={data.directives} />
            )}
            {enters ? (
              <div data-screen-only="">
                <More words="Enter a directive or a bulletin">
                  <DirectiveForm directives={data.directives} models={[...models.values()]} />
                </More>
              </div>
            ) : null}
          </>
        ) : problem ? (
          <NoAnswer
            head="No directives to show"
            problem={problem}
            onAgain={() => void client.refetchQueries()}
          />
        ) : (
          <Loading>Fetching the directives</Loading>
        )}
      </div>
    </Sheet>
  );
}

const undecided = ({ aircraft, supersededBy }: DirectiveEntered) =>
  supersededBy ? [] : aircraft.filter(({ decision }) => decision == null);

function reachWords({ reaches }: DirectiveEntered): string {
  return reaches
    .map(({ model, partNumber, serials }) =>
      [
        model ? `${model.maker} ${model.name}` : 'any model',
        ...(partNumber === '' ? [] : [`part ${partNumber}`]),
        serials === '' ? 'all serials' : `serials ${serials}`,
      ].join(', '),
    )
    .join('; ');
}

function Entered({ directives }: { directives: readonly DirectiveEntered[] }) {
  return (
    <PartsList
      caption="Entered here, newest revision first"
      columns={[
        { key: 'what', head: 'Directive' },
        { key: 'terms', head: 'By when' },
        { key: 'reaches', head: 'Reaches here' },
      ]}
      rows={directives.map((directive) => ({
        key: directive.id,
        cells: {
          what: `${directive.subject} · ${directive.number}${directive.revision === '' ? '' : ` · ${directive.revision}`}`,
          terms: directive.supersededBy
            ? `Superseded by ${directive.supersededBy.number}`
            : directive.terms,
          reaches:
            directive.aircraft.length === 0
              ? 'none'
              : directive.aircraft.map(({ aircraft, part, decision, found }, index) => (
                  <span key={`${aircraft.id} ${part ?? ''}`}>
                    {index === 0 ? '' : ', '}
                    <a href={`/records/aircraft/${aircraft.id}`}>{aircraft.registration}</a>{' '}
                    {decision == null
                      ? found === 'unclear'
                        ? '(to decide: unclear)'
                        : '(to decide)'
                      : decision.binds
                        ? '(decided: yes)'
                        : '(decided: no)'}
                  </span>
                )),
        },
        note: `${kindWords[directive.kind]} · ${directive.authority} · of ${calendarDateText(directive.revisedOn)} · ${reachWords(directive)} · ${directive.method}`,
      }))}
    />
  );
}

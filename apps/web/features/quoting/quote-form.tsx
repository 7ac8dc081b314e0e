'use client';

import { useRouter } from 'next/navigation';
import { type KeyboardEvent, useState } from 'react';
import { Sheet } from '../../components/Sheet.tsx';
import type { Channel, DeskCatalogueQuery } from '../../graphql/generated/graphql.ts';
import { dayText } from '../../lib/figures/dates.ts';
import type { Viewer } from '../../lib/use-viewer.ts';
import { packagesFor } from './catalogue-document.ts';
import { ForecastBody } from './forecast-body.tsx';
import { KeepStrip } from './keep-strip.tsx';
import styles from './quote-form.module.css';
import { quoteKeys } from './quoting-keys.ts';
import type { QuoteStart } from './start-quote.ts';
import { TellFinding } from './tell-finding.tsx';
import { useForecast } from './use-forecast.ts';
import { type Kept, useKeep } from './use-send.ts';
import { allPricesRead, forecastAsked, linesAsked, useWanted } from './use-wanted.ts';
import { WhatIf } from './what-if.tsx';
import { WhatIsWanted } from './what-is-wanted.tsx';

/** The form of a quote: what is wanted, what it would cost as one types, and the way out. */
export function QuoteForm({
  viewer,
  catalogue,
  start,
}: {
  viewer: Viewer;
  catalogue: DeskCatalogueQuery;
  start: QuoteStart;
}) {
  const router = useRouter();
  const form = useWanted(start.wanted);
  const [terms, setTerms] = useState(start.terms);
  const [expiresOn, setExpiresOn] = useState('');
  const [channel, setChannel] = useState<Channel>('telephone');
  const { wanted } = form;
  const aircraft = catalogue.aircraft.edges.find(({ node }) => node.id === wanted.aircraftId)?.node;
  const packages = aircraft === undefined ? [] : packagesFor(catalogue.packages, aircraft);
  const chosen = packages.find(({ id }) => id === wanted.packageId);
  const { currency } = viewer.shop;
  const asked = forecastAsked(wanted, chosen?.tasks.length ?? 0, currency);
  const forecast = useForecast(asked);
  const keep = useKeep(({ quoteId, notSent }: Kept) =>
    router.push(
      `/desk/quotes/${quoteId}${notSent === null ? '' : `?not-sent=${encodeURIComponent(notSent)}`}`,
    ),
  );
  const ready =
    asked !== null && wanted.contactId !== '' && allPricesRead(wanted, currency) && !keep.isPending;

  function leave(how: Channel | null) {
    if (asked === null || !ready) return;
    const rest = { terms, ...(expiresOn === '' ? {} : { expiresOn }) };
    const what =
      start.revises === null
        ? { kind: 'draft' as const, input: { ...asked, contactId: wanted.contactId, ...rest } }
        : {
            kind: 'revision' as const,
            input: {
              quoteId: start.revises.quoteId,
              fromRevision: start.revises.fromRevision,
              ...linesAsked(wanted, currency),
              ...rest,
            },
          };
    keep.mutate({ what, channel: how });
  }

  function onKey(event: KeyboardEvent) {
    if (event.key === 'Enter' && (event.ctrlKey || event.metaKey)) leave(channel);
  }

  const manages = viewer.person.roles.includes('manager');
  const title = titleOf(start);
  return (
    <Sheet
      keys={quoteKeys}
      here="desk"
      viewer={viewer.person}
      title={title}
      titleBlock={{
        what: chosen?.title ?? start.revises?.title ?? start.finding?.title ?? 'Quote',
        cells: [
          { label: 'Aircraft', value: aircraft?.registration ?? 'not named yet', figures: true },
          { label: 'Number', value: start.revises?.number ?? 'when kept', figures: true },
          { label: 'Revision', value: (start.revises?.fromRevision ?? 0) + 1, figures: true },
          { label: 'Drawn by', value: viewer.person.name },
          { label: 'Date', value: dayText(new Date(), viewer.shop.timeZone), figures: true },
          { label: 'Shop', value: viewer.shop.name },
        ],
      }}
    >
      {/* biome-ignore lint/a11y/noStaticElementInteractions: a shortcut for the button below, which every hand can reach */}
      <div className={styles.form} onKeyDown={onKey}>
        <WhatIsWanted
          form={form}
          catalogue={catalogue}
          aircraft={aircraft}
          packages={packages}
          start={start}
        />
        <ForecastBody
          asked={asked !== null}
          answer={forecast.data}
          problem={forecast.error}
          aircraft={aircraft}
          wanted={wanted}
          chosen={chosen}
        />
        {asked === null ? null : (
          <WhatIf
            asked={asked}
            answer={forecast.data}
            wanted={wanted}
            currency={currency}
            onLeaveOut={form.remove}
          />
        )}
        {chosen === undefined || aircraft === undefined || !manages ? null : (
          <TellFinding chosen={chosen} model={aircraft.model} currency={currency} />
        )}
        {asked === null ? null : (
          <KeepStrip
            terms={terms}
            onTerms={setTerms}
            expiresOn={expiresOn}
            onExpiresOn={setExpiresOn}
            channel={channel}
            onChannel={setChannel}
            ready={ready && forecast.data?.__typename === 'QuoteForecast'}
            sending={keep.isPending}
            problem={keep.error}
            onLeave={leave}
          />
        )}
      </div>
    </Sheet>
  );
}

function titleOf({ revises, finding }: QuoteStart): string {
  if (revises !== null) return `Quote ${revises.number}, next revision`;
  return finding === null ? 'New quote' : `Quote for finding ${finding.number}`;
}

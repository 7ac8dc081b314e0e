'use client';

import { useQuery } from '@tanstack/react-query';
import { Button } from '../../components/Button.tsx';
import { Loading } from '../../components/Empty.tsx';
import { ErrorNote } from '../../components/ErrorNote.tsx';
import { Sheet } from '../../components/Sheet.tsx';
import { SheetsNav } from '../../components/SheetsNav.tsx';
import { request } from '../../graphql/request.ts';
import { dayText } from '../../lib/figures/dates.ts';
import { useViewer } from '../../lib/use-viewer.ts';
import { ChecklistsPart } from '../safety/checklists-part.tsx';
import { ToolsPart } from '../safety/tools-part.tsx';
import { ChangesPart } from './changes-part.tsx';
import { DevicesPart } from './devices-part.tsx';
import { KeyPart } from './key-part.tsx';
import styles from './people.module.css';
import { shopKeys } from './people-keys.ts';
import { PeoplePart } from './people-part.tsx';
import { changeText, standingWords } from './people-words.ts';
import { PriceListsPart } from './price-lists-part.tsx';
import { QualificationsPart } from './qualifications-part.tsx';
import { RatesPart } from './rates-part.tsx';
import { ShopSheetDocument } from './shop-documents.ts';
import { StandingPart } from './standing-part.tsx';
import { StoragePart } from './storage-part.tsx';
import { WeekPart } from './week-part.tsx';

const notes = [
  'A change counts from now on. What was sent, signed or billed keeps what it was made with.',
  'Who may sign follows from certificates, ratings and days (14 CFR 65 and 43.7); a person decides, not this program.',
  'Rates and taxes are the shop’s own. The program knows no tax of its own.',
];

/** The sheet is long: its parts by name, and the packages, which have a sheet of their own. */
const parts = [
  { key: 'packages', href: '/shop/packages', words: 'Packages' },
  { key: 'people', href: '#people', words: 'People' },
  { key: 'qualifications', href: '#qualifications', words: 'Signatures' },
  { key: 'week', href: '#week', words: 'The week' },
  { key: 'rates', href: '#rates', words: 'Rates and taxes' },
  { key: 'price-lists', href: '#price-lists', words: 'Prices' },
  { key: 'devices', href: '#devices', words: 'Devices' },
  { key: 'shop-key', href: '#shop-key', words: 'The key' },
  { key: 'tools', href: '#tools', words: 'Tools' },
  { key: 'checklists', href: '#checklists', words: 'Checklists' },
  { key: 'changes', href: '#changes', words: 'Revisions' },
];

/** What the shop is, who works in it, when, and what an hour costs: the manager's sheet. */
export function ShopSheet() {
  const viewer = useViewer();
  const asked = useQuery({
    queryKey: ['shopSheet'],
    queryFn: () => request(ShopSheetDocument),
    enabled: viewer.data !== undefined,
  });
  const answer = asked.data?.shopSheet;
  const sheet = answer?.__typename === 'ShopSheet' ? answer : null;
  const problem =
    answer?.__typename === 'Refusal' ? answer.message : (viewer.error ?? asked.error)?.message;
  const zone = sheet?.shop.timeZone ?? 'UTC';
  const here = sheet?.people.filter(({ person }) => person.active);
  return (
    <Sheet
      here="shop"
      viewer={viewer.data ? viewer.data.person : null}
      title="The shop"
      notes={notes}
      keys={shopKeys}
      titleBlock={{
        what: 'The shop, its people and its rates',
        cells: [
          { label: 'Shop', value: sheet?.shop.name ?? '', span: 'half' },
          {
            label: 'Signs on',
            value: sheet ? standingWords[sheet.shop.standing] : '',
            span: 'half',
          },
          { label: 'People', value: here ? String(here.length) : '', figures: true },
          { label: 'Revision', value: sheet ? String(sheet.shop.version) : '', figures: true },
          {
            label: 'Last change',
            value: sheet?.changes[0] ? dayText(sheet.changes[0].at, zone) : 'none yet',
            figures: true,
          },
        ],
      }}
    >
      {sheet ? (
        <div className={styles.sections}>
          <SheetsNav label="On this sheet, and behind it" sheets={parts} />
          <StandingPart sheet={sheet} />
          <p className={styles.changed}>Last changed: {changeText(sheet.lastChange, zone)}</p>
          <PeoplePart sheet={sheet} />
          <QualificationsPart sheet={sheet} />
          <WeekPart sheet={sheet} />
          <RatesPart sheet={sheet} />
          <StoragePart sheet={sheet} />
          <PriceListsPart sheet={sheet} />
          <DevicesPart timeZone={zone} />
          <KeyPart timeZone={zone} name={viewer.data?.person.name ?? ''} />
          <ToolsPart />
          <ChecklistsPart />
          <ChangesPart changes={sheet.changes} timeZone={zone} />
        </div>
      ) : problem ? (
        <ErrorNote
          head="No sheet to show"
          action={<Button onClick={() => void asked.refetch()}>Ask again</Button>}
        >
          {problem}
        </ErrorNote>
      ) : (
        <Loading>Opening the sheet of the shop</Loading>
      )}
    </Sheet>
  );
}

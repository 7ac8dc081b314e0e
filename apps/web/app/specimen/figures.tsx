import { addingSteps, ChainDimension } from '../../components/ChainDimension.tsx';
import { DayDimension } from '../../components/DayDimension.tsx';
import { Dimension, type Estimate } from '../../components/Dimension.tsx';
import { Hours, Money } from '../../components/Figure.tsx';
import { LongDimension } from '../../components/LongDimension.tsx';
import { PartsList } from '../../components/PartsList.tsx';
import { commonScale } from '../../lib/figures/quantity.ts';
import styles from './specimen.module.css';

const shroud: Estimate = { p10: 2.4, p50: 3.2, p80: 4.1, p90: 4.6 };
const boom: Estimate = { p10: 0.7, p50: 0.9, p80: 1.1, p90: 1.2 };
const mast: Estimate = { p10: 5.1, p50: 6.4, p80: 8.2, p90: 9.5 };
const firm: Estimate = { p10: 4, p50: 4, p80: 4, p90: 4 };
const price: Estimate = { p10: 112000n, p50: 124050n, p80: 143000n, p90: 155000n };

const nearDay = {
  beginsOn: '2031-05-05',
  p50: '2031-05-06',
  p80: '2031-05-09',
  atBestP50: null,
  atBestP80: null,
  sentence:
    'As likely as not by Tue 6 May, four in five by Fri 9 May: the work itself is most of it, 21.2 to 30 hands-on hours.',
  parts: { work: 3, away: 1, others: 0, waits: 0 },
};
const farDay = {
  ...nearDay,
  p50: '2031-07-09',
  p80: '2031-07-18',
  sentence:
    'As likely as not by Wed 9 Jul, four in five by Fri 18 Jul: most of it is the wait for the exhaust collector, until Mon 30 Jun: 46 of the 74 days.',
  parts: { work: 28, away: 0, others: 0, waits: 46 },
};
const openDay = {
  ...nearDay,
  p50: null,
  p80: null,
  atBestP50: '2031-05-06',
  atBestP80: '2031-05-09',
  sentence:
    'No day can be promised until it is known when this comes: the exhaust collector. If it came now: as likely as not by Tue 6 May, four in five by Fri 9 May.',
  parts: null,
};
const reasons = [
  { words: 'standard', value: 2.0, note: 'stated for a bare engine' },
  { words: 'this shop', operation: '×1.12', value: 2.24, note: '31 like jobs' },
  { words: 'this place', operation: '×1.41', value: 3.16, note: '95 mm of room, by feel' },
];

export function DimensionSpecimen() {
  const scale = commonScale([shroud.p90, boom.p90, mast.p90, firm.p90]);
  return (
    <section className={styles.part}>
      <h2>An estimate is a dimension</h2>
      <div className={styles.two}>
        <div>
          <Dimension estimate={shroud} unit="h" scale={scale} reasons={reasons} />
          <Dimension estimate={boom} unit="h" scale={scale} />
          <Dimension estimate={mast} unit="h" scale={scale} />
          <Dimension estimate={firm} unit="h" scale={scale} />
          <Dimension estimate={price} unit="USD" />
        </div>
        <ChainDimension steps={reasons} unit="h" />
      </div>
      <div className={styles.two}>
        <DayDimension promise={nearDay} />
        <DayDimension promise={farDay} />
        <DayDimension promise={openDay} />
      </div>
    </section>
  );
}

export function PartsSpecimen() {
  const scale = commonScale([shroud.p90, boom.p90, mast.p90]);
  const money = (minor: bigint) => <Money minor={minor} currency="USD" />;
  return (
    <section className={styles.part}>
      <PartsList
        caption="Parts list"
        columns={[
          { key: 'item', head: 'Item' },
          { key: 'hours', head: 'Hours', kind: 'dimension' },
          { key: 'parts', head: 'Parts, USD', kind: 'figure' },
          { key: 'price', head: 'Price, USD', kind: 'figure' },
        ]}
        rows={[
          {
            key: 'shroud',
            balloon: 1,
            note: 'Grey streak at the cabin-heat shroud',
            cells: {
              item: 'Replace exhaust collector',
              hours: <Dimension estimate={shroud} unit="h" scale={scale} reasons={reasons} />,
              parts: money(41250n),
              price: money(74850n),
            },
          },
          {
            key: 'boom',
            balloon: 2,
            marked: true,
            cells: {
              item: 'Tail-boom attachment, torque check',
              hours: <Dimension estimate={boom} unit="h" scale={scale} />,
              price: money(9450n),
            },
          },
          {
            key: 'mast',
            balloon: 3,
            cells: {
              item: 'Teeter-hinge bearings',
              hours: <Dimension estimate={mast} unit="h" scale={scale} />,
              parts: money(125400n),
              price: money(192600n),
            },
          },
          {
            key: 'skid',
            balloon: 4,
            cells: {
              item: 'Skid shoes, looked at',
              hours: <Hours value={0.2} />,
              price: money(0n),
            },
          },
        ]}
        foot={[
          { key: 'net', cells: { item: 'Together', parts: money(166650n), price: money(276900n) } },
          { key: 'tax', cells: { item: 'Tax on parts, 7 %', price: money(11666n) } },
          { key: 'due', cells: { item: 'To pay', price: money(288566n) } },
        ]}
      />
    </section>
  );
}

export function TotalSpecimen() {
  const steps = addingSteps(
    'quoted',
    190000n,
    [
      { words: 'exhaust collector', change: 74850n, note: 'agreed by telephone, 12 Mar 2026' },
      { words: 'skid shoes not needed', change: -12000n },
      { words: 'written off by the shop', change: -4550n },
    ],
    'USD',
  );
  return (
    <section className={styles.part}>
      <h2>A total, and why it differs from the quote</h2>
      <LongDimension
        label="The whole job"
        unit="USD"
        firm={140000n}
        likely={190000n}
        nineInTen={224000n}
      />
      <LongDimension
        label="With the owner’s ceiling"
        unit="USD"
        firm={140000n}
        likely={190000n}
        nineInTen={224000n}
        ceiling={250000n}
      />
      <LongDimension
        label="The ceiling may be passed"
        unit="USD"
        firm={40000n}
        likely={190000n}
        nineInTen={224000n}
        ceiling={190000n}
      />
      <ChainDimension steps={steps} unit="USD" fineness="exact" total="invoiced" />
    </section>
  );
}

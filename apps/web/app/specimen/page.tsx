import type { Metadata } from 'next';
import { notFound } from 'next/navigation';
import { Sheet } from '../../components/Sheet.tsx';
import { Stamp } from '../../components/Stamp.tsx';
import { AircraftSpecimen, StateSpecimen } from './drawings.tsx';
import { DimensionSpecimen, PartsSpecimen, TotalSpecimen } from './figures.tsx';
import { FormSpecimen } from './forms.tsx';
import { NoteSpecimen, TypeSpecimen } from './notes.tsx';
import styles from './specimen.module.css';

export const metadata: Metadata = { title: 'Specimen sheet' };

/** Every component in every state: the living style sheet. */
export default async function SpecimenPage({
  searchParams,
}: {
  searchParams: Promise<{ reading?: string }>;
}) {
  const { reading } = await searchParams;
  if (reading !== undefined && reading !== 'bench' && reading !== 'desk') notFound();
  return (
    <Sheet
      here="desk"
      viewer={{ name: 'A. Person', roles: ['front_desk', 'mechanic', 'inspector', 'manager'] }}
      title="Specimen sheet"
      reading={reading === 'bench' ? 'bench' : 'desk'}
      notice="Not sent yet: 2 clock events, 1 photograph. They leave by themselves when the network is back."
      titleBlock={{
        what: 'Specimen of every mark this program draws',
        cells: [
          { label: 'Aircraft', value: 'QQ-117', figures: true },
          { label: 'Number', value: '2041', figures: true },
          { label: 'Revision', value: 'C', figures: true },
          { label: 'Drawn by', value: 'A. Person', span: 'half' },
          { label: 'Date', value: '14 Mar 2026', figures: true, span: 'half' },
        ],
        stamp: (
          <Stamp
            kind="Airframe and powerplant"
            name="A. Person"
            number="No. 0000000"
            date="14 Mar 2026"
          />
        ),
      }}
    >
      <div className={styles.parts}>
        <AircraftSpecimen />
        <DimensionSpecimen />
        <PartsSpecimen />
        <TotalSpecimen />
        <StateSpecimen />
        <FormSpecimen />
        <NoteSpecimen />
        <TypeSpecimen />
      </div>
    </Sheet>
  );
}

'use client';

import { useQuery } from '@tanstack/react-query';
import { Loading } from '../../components/Empty.tsx';
import { NoAnswer } from '../../components/NoAnswer.tsx';
import { PartsList } from '../../components/PartsList.tsx';
import { request } from '../../graphql/request.ts';
import styles from './stores.module.css';
import { FittedDocument } from './stores-documents.ts';

const kindWords: Record<string, string> = {
  engine: 'engine',
  propeller: 'propeller',
  rotor: 'rotor',
  gearbox: 'gearbox',
  accessory: 'accessory',
};

/** Serialised components and the aircraft that each is on. Fetched when somebody asks. */
export function FittedList() {
  const { data, error, refetch } = useQuery({
    queryKey: ['fitted'],
    queryFn: async () => (await request(FittedDocument)).aircraft.edges.map(({ node }) => node),
  });
  if (error !== null)
    return <NoAnswer head="No components to show" problem={error} onAgain={() => void refetch()} />;
  if (data === undefined) return <Loading>Fetching the components</Loading>;
  const rows = data.flatMap(({ registration, components }) =>
    components.map((component) => ({ registration, ...component })),
  );
  if (rows.length === 0)
    return <p className={styles.second}>No serialised component is recorded on an aircraft.</p>;
  return (
    <PartsList
      caption="Components by serial number"
      captionHidden
      columns={[
        { key: 'what', head: 'Component' },
        { key: 'on', head: 'On' },
        { key: 'kind', head: 'Kind' },
        { key: 'serial', head: 'Serial' },
      ]}
      rows={rows.map(({ id, registration, title, partNumber, kind, serial }) => ({
        key: id,
        cells: {
          what: title,
          on: <b className={styles.place}>{registration}</b>,
          kind: kindWords[kind] ?? kind,
          serial: <span className={styles.figures}>{serial}</span>,
        },
        note: partNumber,
      }))}
    />
  );
}

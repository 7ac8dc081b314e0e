'use client';

import { useQuery } from '@tanstack/react-query';
import { request } from '../../graphql/request.ts';
import styles from './part-against.module.css';
import { ShortageDocument } from './part-documents.ts';

/** Says of a part that is wanted that it is not there, and what stands in for it. Nothing where enough lies free. */
export function ShortageNote({ partId, wanted }: { partId: string; wanted: string }) {
  const { data } = useQuery({
    queryKey: ['shortage', partId, wanted],
    queryFn: async () => (await request(ShortageDocument, { id: partId, wanted })).node,
  });
  const words = data != null && 'shortage' in data ? data.shortage : null;
  return words === null ? null : <span className={styles.against}>{words}</span>;
}

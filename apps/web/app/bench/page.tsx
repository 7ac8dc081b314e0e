import type { Metadata } from 'next';
import { BenchViews } from '../../features/work/BenchViews.tsx';

export const metadata: Metadata = { title: 'Bench' };

export default function BenchPage() {
  return <BenchViews />;
}

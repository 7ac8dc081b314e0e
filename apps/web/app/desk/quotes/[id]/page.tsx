import type { Metadata } from 'next';
import { QuoteSheet } from '../../../../features/quoting/quote-sheet.tsx';

export const metadata: Metadata = { title: 'Quote' };

export default async function QuotePage({
  params,
  searchParams,
}: {
  params: Promise<{ id: string }>;
  searchParams: Promise<Record<string, string | string[] | undefined>>;
}) {
  const { id } = await params;
  const { 'not-sent': notSent } = await searchParams;
  return <QuoteSheet id={id} notSent={typeof notSent === 'string' ? notSent : undefined} />;
}

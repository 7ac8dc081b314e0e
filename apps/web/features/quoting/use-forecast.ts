import { keepPreviousData, useQuery } from '@tanstack/react-query';
import { useEffect, useState } from 'react';
import type { QuoteForecastInput } from '../../graphql/generated/graphql.ts';
import { request } from '../../graphql/request.ts';
import { QuoteForecastDocument } from './forecast-documents.ts';

/** A value that has stood still for a moment, so that not every key asks the server. */
export function useSettled<Value>(value: Value, milliseconds: number): Value {
  const [settled, setSettled] = useState(value);
  const text = JSON.stringify(value);
  useEffect(() => {
    const timer = setTimeout(() => setSettled(JSON.parse(text) as Value), milliseconds);
    return () => clearTimeout(timer);
  }, [text, milliseconds]);
  return settled;
}

/** What a draft would say, kept up with what is wanted; the last answer stays until the next. */
export function useForecast(asked: QuoteForecastInput | null) {
  const settled = useSettled(asked, 200);
  return useQuery({
    queryKey: ['quoteForecast', settled],
    enabled: settled !== null,
    placeholderData: keepPreviousData,
    queryFn: async () => {
      if (settled === null) throw new TypeError('there is nothing to forecast');
      const { quoteForecast } = await request(QuoteForecastDocument, { input: settled });
      return quoteForecast;
    },
  });
}

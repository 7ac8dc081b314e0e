import { expect, test } from 'vitest';
import {
  decimalText,
  differenceOf,
  quantityWords,
  taxByCategory,
  typedAmount,
} from '../features/books/invoice-figures.ts';
import { invoiceName, stateWords } from '../features/books/invoice-words.ts';
import { paymentKey } from '../features/books/payment-key.ts';

const line = (id: string, net: string, taxRate: string, taxCode = 'S') => ({
  id,
  net,
  taxCode,
  taxRate,
});

test('decimals keep every digit that counts, and at least as many as asked for', () => {
  expect(decimalText('1092.5', 2)).toBe('1,092.50');
  expect(decimalText('0.1234', 2)).toBe('0.1234');
  expect(decimalText('3.0', 0)).toBe('3');
  expect(decimalText('-0.8', 1)).toBe('−0.8');
});

test('hours are in tenths with their unit, pieces as they are, a flat price in words', () => {
  expect(quantityWords({ quantity: '0.7', unit: 'hour' })).toBe('0.7 h');
  expect(quantityWords({ quantity: '3', unit: 'hour' })).toBe('3.0 h');
  expect(quantityWords({ quantity: '6', unit: 'each' })).toBe('6');
  expect(quantityWords({ quantity: '1', unit: 'job' })).toBe('flat price');
  expect(quantityWords({ quantity: '-1', unit: 'not billed' })).toBe('not billed');
});

test('tax is by category and rate, each rounded once (EN 16931, BR-CO-17 and BR-CO-14)', () => {
  // 4 % of 361.80 is 14.472, 8.5 % of 129.30 is 10.9905: rounded once each they are 14.47 and 10.99.
  const lines = [
    line('1', '28500', '4'),
    line('2', '7680', '4.00'),
    line('3', '12250', '8.5'),
    line('4', '680', '8.5'),
  ];
  expect(taxByCategory({ currency: 'USD', tax: '2546', lines })).toEqual([
    { code: 'S', rate: '4', base: 36180n, amount: 1447n },
    { code: 'S', rate: '8.5', base: 12930n, amount: 1099n },
  ]);
  // What was held back takes its tax with it, and a credit note is the same, negative.
  expect(
    taxByCategory({
      currency: 'USD',
      tax: '-400',
      lines: [line('1', '2000', '4'), line('2', '-12000', '4')],
    }),
  ).toEqual([{ code: 'S', rate: '4', base: -10000n, amount: -400n }]);
  expect(
    taxByCategory({ currency: 'USD', tax: '401', lines: [line('1', '10000', '4')] }),
  ).toBeNull();
});

test('the difference from the quote closes to the cent, in few steps and in many', () => {
  const step = (amount: string, kind: 'labour' | 'parts' = 'labour') => ({
    kind,
    title: `step of ${amount}`,
    amount,
  });
  const few = differenceOf({
    quoted: '288660',
    net: '298900',
    currency: 'USD',
    difference: [step('-400', 'parts'), step('10640')],
  });
  expect(few?.closes).toBe(true);
  expect(few?.byReason).toBe(few?.steps);
  expect(few?.steps.map(({ operation }) => operation)).toEqual([undefined, '−4.00', '+106.40']);
  const many = differenceOf({
    quoted: '10000',
    net: '10011',
    currency: 'USD',
    difference: [
      ...Array.from({ length: 10 }, () => step('1')),
      step('300', 'parts'),
      step('-299', 'parts'),
    ],
  });
  expect(many?.closes).toBe(true);
  expect(many?.steps).toHaveLength(13);
  expect(many?.byReason.map(({ value }) => value)).toEqual([10000n, 10010n, 10011n]);
  const open = { quoted: '100', net: '101', currency: 'USD', difference: [] };
  expect(differenceOf(open)?.closes).toBe(false);
  expect(differenceOf({ ...open, quoted: null })).toBeNull();
});

test('a typed amount is exact or refused', () => {
  expect(typedAmount('1,240.5', 'USD')).toBe('124050');
  expect(typedAmount(' 0.07 ', 'USD')).toBe('7');
  expect(typedAmount('12.345', 'USD')).toBeNull();
  expect(typedAmount('-5', 'USD')).toBeNull();
  expect(typedAmount('', 'USD')).toBeNull();
  expect(typedAmount('12e3', 'USD')).toBeNull();
  // ISO 4217, list one: the yen has no minor unit.
  expect(typedAmount('1200', 'JPY')).toBe('1200');
  expect(typedAmount('12.5', 'JPY')).toBeNull();
});

test('an invoice is called what it is', () => {
  const credits = { id: 'x' };
  expect(invoiceName({ number: null, credits: null })).toBe('Draft invoice');
  expect(invoiceName({ number: 411, credits: null })).toBe('Invoice 411');
  expect(invoiceName({ number: 412, credits })).toBe('Credit note 412');
  expect(stateWords({ state: 'issued', credits: null }, 100n)).toBe('issued');
  expect(stateWords({ state: 'issued', credits: null }, 0n)).toBe('paid');
  expect(stateWords({ state: 'issued', credits }, 0n)).toBe('credit note');
  expect(stateWords({ state: 'credited', credits: null }, -5n)).toBe('credited, to be paid back');
});

test('a payment has a key of its own, a version 4 UUID', () => {
  const keys = Array.from({ length: 50 }, paymentKey);
  expect(new Set(keys).size).toBe(50);
  // RFC 9562, 5.4: version 4 in the third group, variant 10 in the fourth.
  for (const key of keys)
    expect(key).toMatch(/^[\da-f]{8}-[\da-f]{4}-4[\da-f]{3}-[89ab][\da-f]{3}-[\da-f]{12}$/);
});

import { afterEach, beforeEach, expect, type MockInstance, vi } from 'vitest';

// What a program complains about while a test runs is a finding, also when the test's own assertions hold.
let complaints: MockInstance<typeof console.error>;

beforeEach(() => {
  complaints = vi.spyOn(console, 'error');
});

afterEach(() => {
  const said = complaints.mock.calls.map((call) => call.map(String).join(' '));
  complaints.mockRestore();
  expect(said, 'console.error was called').toEqual([]);
});

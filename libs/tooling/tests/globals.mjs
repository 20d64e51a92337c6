// What `@jest/globals` is to a test: the runner's own, and fake timers that promises can be awaited between, which the runner's are not.
import { ModernFakeTimers } from '@jest/fake-timers';

const timers = new ModernFakeTimers({ config: { fakeTimers: { enableGlobally: false } }, global: globalThis });
export const { expect, test, it, describe, beforeAll, afterAll, beforeEach, afterEach } = globalThis;
export const jest = {
  ...globalThis.jest,
  useFakeTimers: (fakeTimers) => timers.useFakeTimers(fakeTimers),
  useRealTimers: () => timers.useRealTimers(),
  advanceTimersByTimeAsync: (ms) => timers.advanceTimersByTimeAsync(ms),
};

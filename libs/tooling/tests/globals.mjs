// What `@jest/globals` is to a test: Jest's own pieces, the same for every file of a worker.
import { jestExpect } from '@jest/expect';
import { ModernFakeTimers } from '@jest/fake-timers';
import { ModuleMocker } from 'jest-mock';

export { afterAll, afterEach, beforeAll, beforeEach, describe, it, test } from 'jest-circus';
export const expect = jestExpect;

const timers = new ModernFakeTimers({ config: { fakeTimers: { enableGlobally: false } }, global: globalThis });
const mocker = new ModuleMocker(globalThis);
export const jest = {
  spyOn: mocker.spyOn.bind(mocker),
  restoreAllMocks: () => mocker.restoreAllMocks(),
  useFakeTimers: (fakeTimers) => timers.useFakeTimers(fakeTimers),
  useRealTimers: () => timers.useRealTimers(),
  advanceTimersByTime: (ms) => timers.advanceTimersByTime(ms),
  advanceTimersByTimeAsync: (ms) => timers.advanceTimersByTimeAsync(ms),
};

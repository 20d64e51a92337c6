import type { Config } from '../config/index.js';

export const ACCESS_SETTINGS = Symbol('AccessSettings');

/** How long things hold, in milliseconds. */
export interface AccessSettings {
  /** Without a touch: a tapped name, and a PIN. */
  readonly tappedIdleMs: number;
  readonly pinIdleMs: number;
  /** At most, however busy. */
  readonly sessionMs: number;
  readonly signatureMs: number;
  readonly enrolmentCodeMs: number;
}

const minute = 60_000;

export const settingsFrom = (config: Pick<Config, 'SESSION_MINUTES' | 'TAPPED_IDLE_MINUTES' | 'PIN_IDLE_MINUTES'>): AccessSettings => ({
  tappedIdleMs: config.TAPPED_IDLE_MINUTES * minute,
  pinIdleMs: config.PIN_IDLE_MINUTES * minute,
  sessionMs: config.SESSION_MINUTES * minute,
  signatureMs: 2 * minute,
  enrolmentCodeMs: 10 * minute,
});

import { randomDigits } from '../ids/index.js';
import { isWeakPin } from './weak-pin.js';

/** A PIN of six digits for somebody who has none yet, and none that somebody tries first. */
export function firstPin(): string {
  for (;;) {
    const pin = randomDigits(6);
    if (!isWeakPin(pin)) return pin;
  }
}

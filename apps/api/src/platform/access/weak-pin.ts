import type { Permission } from '@bakehouse/kernel';

/** Four to eight digits. */
export const pinForm = /^\d{4,8}$/;

/** How many digits a PIN needs that lets people, PINs and tablets in, or signs what releases, approves or closes. A value of our own, no source. */
export const longPin = 6;

/** Whether what holders of a permission sign needs a long PIN. Work at the table does not: what it lets in is one delivery or one lot. */
export const needsLongPin = (permission: Permission): boolean => !['view', 'record', 'decide.goods'].includes(permission);

/**
 * Whether a PIN is among those that somebody tries first: one digit over and over, a part repeated, a run up or down by one or two
 * (0 follows 9), a year or a whole date of somebody living, the middle column of the keys. Common practice, no source.
 */
export function isWeakPin(pin: string): boolean {
  return isRun(pin) || isRepeat(pin) || isYear(pin) || isDate(pin) || pin === '2580' || pin === '0852';
}

function isRun(pin: string): boolean {
  const steps = [...pin].slice(1).map((digit, i) => (Number(digit) - Number(pin[i]) + 10) % 10);
  const [first = 0] = steps;
  return [0, 1, 2, 8, 9].includes(first) && steps.every((step) => step === first);
}

/** 1212, 123123, 1122: the same part again, or each digit twice. */
function isRepeat(pin: string): boolean {
  return /^(\d{1,4})\1+$/.test(pin) || /^((\d)\2)+$/.test(pin);
}

/** A day of a life: 20261128, 28111999. */
const isDate = (pin: string): boolean => /^(19|20)\d\d(0[1-9]|1[0-2])[0-3]\d$|^[0-3]\d(0[1-9]|1[0-2])(19|20)\d\d$/.test(pin);
const isYear = (pin: string): boolean => /^(19[2-9]\d|20[0-3]\d)$/.test(pin);

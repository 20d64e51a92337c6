import { role as everyRole } from '@bakehouse/kernel';
import { phrase } from '@bakehouse/records';

/** The roles that are given; an inspector is let in for a time instead. */
export const roles = everyRole.extract(['baker', 'manager', 'viewer', 'food-safety-lead', 'administrator']).options;
export type GivenRole = (typeof roles)[number];
export const roleOptions = roles.map((value) => ({ value, text: phrase(`role.${value}`) }));

export const goodPin = (pin: string): boolean => /^\d{4,8}$/.test(pin);

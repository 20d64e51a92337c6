export { CLOCK, SettableClock, systemClock, type Clock } from './clock.js';
export { wallTime } from './wall-clock.js';
export { Hourly } from './hourly.js';

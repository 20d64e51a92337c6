export { CLOCK, SettableClock, systemClock, type Clock } from './clock.js';
export { dayText, wallClock, wallTime, type WallClock } from './wall-clock.js';

export { CLOCK, SettableClock, systemClock, type Clock } from './clock.js';

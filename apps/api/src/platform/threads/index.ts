export { Threads } from './threads.js';

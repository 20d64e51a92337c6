export { randomDigits, randomToken, tokenHash, uuidv7, uuidv7From } from './ids.js';

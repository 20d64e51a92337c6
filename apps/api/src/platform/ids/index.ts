export { randomDigits, randomToken, salt, tokenHash, uuidv7, uuidv7From } from './ids.js';

export { errorCode, errorMessage } from './error-code.js';

export { apiPage } from './api-page.js';
export { style } from './style.js';

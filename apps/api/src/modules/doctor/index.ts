export { aboutHouse, aboutService, type Finding } from './findings.js';
export { houseFacts } from './house-facts.query.js';

export { aboutHouse, aboutService, type Finding } from './findings.js';
export { databaseClock, houseFacts } from './house-facts.query.js';

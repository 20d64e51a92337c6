/** The part of the database platform that runs without Nest and without the generated client: for what prepares a database, the set-up of tests and tools. */
export { EmbeddedPostgres } from './embedded/embedded-postgres.js';
export { demandMigrated, migrate, migrationsFolder, pendingMigrations, readMigrations } from './migrations.js';
export { connected, createDatabase, joinDatabase, openDatabase, prepareDatabase, type Database } from './open-database.js';
export { organisationNames } from './organisations.query.js';
export { refuseMoreThanService, serviceRole, serviceUrlFrom } from './roles.js';

/** The part of the database platform that runs without Nest and without the generated client: what test set-up and tools need. */
export { EmbeddedPostgres } from './embedded/embedded-postgres.js';
export { demandMigrated, migrate, migrationsFolder, pendingMigrations, readMigrations } from './migrations.js';
export { connected, createDatabase, joinDatabase, openDatabase, prepareDatabase, type Database } from './open-database.js';
export { refuseMoreThanService, serviceRole, serviceUrlFrom } from './roles.js';

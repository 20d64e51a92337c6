export { DatabaseModule } from './database.module.js';
export { EmbeddedPostgres } from './embedded/embedded-postgres.js';
export { migrate, migrationsFolder, pendingMigrations, readMigrations } from './migrations.js';
export { connected, createDatabase, joinDatabase, openDatabase, prepareDatabase, type Database } from './open-database.js';
export { servicePool } from './pool.js';
export { PrismaReads } from './prisma.js';
export { refuseSuperuser, serviceRole, serviceUrlFrom } from './roles.js';
export { Tenancy } from './tenancy.js';
export { SERVICE_POOL } from './tokens.js';

export { DatabaseModule } from './database.module.js';
export { EmbeddedPostgres } from './embedded/embedded-postgres.js';
export { demandMigrated, migrate, migrationsFolder, pendingMigrations, readMigrations } from './migrations.js';
export { idsOf, rowsBy } from './by-ids.js';
export { inHouse, inTransaction, seeHouse } from './house-transaction.js';
export {
  connected,
  createDatabase,
  joinDatabase,
  openDatabase,
  prepareDatabase,
  serviceDatabase,
  startServer,
  type Database,
  type ServiceDatabase,
} from './open-database.js';
export { organisationIds, organisationNames } from './organisations.query.js';
export { protectionDiffers, protectionFile, protectionOf } from './protection.js';
export { servicePool } from './pool.js';
export { PrismaReads, type ReadTransaction } from './prisma.js';
export type { AsRead, Columns, Computed, Holds, Maybe, TableRow } from './row-types.js';
export { refuseMoreThanService, serviceRole, serviceUrlFrom } from './roles.js';
export { Tenancy, type Transaction } from './tenancy.js';
export { SERVICE_POOL } from './tokens.js';

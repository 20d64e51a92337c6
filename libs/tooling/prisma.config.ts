import path from 'node:path';
import { defineConfig } from 'prisma/config';

// `generate`, `validate` and `format` run entirely on WASM shipped inside the npm packages, yet the CLI
// first insists on a schema-engine binary. Point it at a file that certainly exists.
process.env['PRISMA_SCHEMA_ENGINE_BINARY'] ??= process.execPath;
const root = path.resolve(import.meta.dirname, '../..');

export default defineConfig({
  schema: path.join(root, 'prisma/schema'),
  migrations: { path: path.join(root, 'prisma/migrations') },
});

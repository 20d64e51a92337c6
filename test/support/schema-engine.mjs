// What `prisma migrate diff` does, without its downloaded binary: the schema engine's WASM build asks a database and compares it with the models.
import { readFile, readdir } from 'node:fs/promises';
import { createRequire } from 'node:module';
import path from 'node:path';
import { PrismaPg } from '@prisma/adapter-pg';
import { ColumnTypeEnum, bindMigrationAwareSqlAdapterFactory } from '@prisma/driver-adapter-utils';
import * as bg from '@prisma/schema-engine-wasm/schema_engine_bg';
import pg from 'pg';

const PG_CHAR = 18; // the catalog's internal one-byte type "char": the adapter refuses it, the engine's questions return it
const PG_BPCHAR = 1042;
const charColumns = new WeakMap();

class CatalogClient extends pg.Client {
  query(...args) {
    const fix = (answer) => {
      for (const one of Array.isArray(answer) ? answer : [answer]) {
        const at = [];
        one?.fields?.forEach((f, i) => {
          if (f.dataTypeID === PG_CHAR) {
            f.dataTypeID = PG_BPCHAR;
            at.push(i);
          }
        });
        if (at.length > 0) charColumns.set(one.rows, at);
      }
      return answer;
    };
    const last = args.at(-1);
    if (typeof last === 'function') args[args.length - 1] = (error, answer) => last(error, fix(answer));
    const sent = super.query(...args);
    return typeof sent?.then === 'function' ? sent.then(fix) : sent;
  }
}

class CatalogPg extends PrismaPg {
  async connect() {
    const adapter = await super.connect();
    const queryRaw = adapter.queryRaw.bind(adapter);
    adapter.queryRaw = async (question) => {
      const answer = await queryRaw(question);
      for (const i of charColumns.get(answer.rows) ?? []) answer.columnTypes[i] = ColumnTypeEnum.Character;
      return answer;
    };
    return adapter;
  }
}

/** The module's own entry needs a flag on Node 20, so it is put together by hand. */
async function loadEngine() {
  globalThis.PRISMA_WASM_PANIC_REGISTRY ??= {
    set_message: (message) => {
      throw new Error(message);
    },
  };
  const entry = createRequire(import.meta.url).resolve('@prisma/schema-engine-wasm/schema_engine_bg');
  const bytes = await readFile(path.join(path.dirname(entry), 'schema_engine_bg.wasm'));
  const imports = { ...bg };
  // its ten-second lock time-out is never cleared: let the process end without it
  for (const name of Object.keys(imports))
    if (name.startsWith('__wbg_setTimeout_')) imports[name] = (work, ms) => setTimeout(work, ms >>> 0).unref();
  const { instance } = await WebAssembly.instantiate(bytes, { './schema_engine_bg.js': imports });
  bg.__wbg_set_wasm(instance.exports);
  instance.exports.__wbindgen_start();
}

const everything = { externalTables: ['public._prisma_migrations'], externalEnums: [] };

/** The SQL that would take this database to the models of a folder; empty where they agree. */
export async function sqlToSchema(url, folder) {
  await loadEngine();
  const names = (await readdir(folder)).filter((name) => name.endsWith('.prisma')).sort();
  const files = await Promise.all(
    names.map(async (name) => ({ path: path.join(folder, name), content: await readFile(path.join(folder, name), 'utf8') })),
  );
  const pool = new pg.Pool({ connectionString: url, max: 1, Client: CatalogClient });
  const engine = await bg.SchemaEngine.new(
    { datamodels: undefined },
    () => undefined,
    bindMigrationAwareSqlAdapterFactory(new CatalogPg(pool)),
  );
  try {
    const answer = await engine.diff({
      from: { tag: 'schemaDatasource', files, configDir: folder },
      to: { tag: 'schemaDatamodel', files },
      script: true,
      exitCode: true,
      filters: everything,
    });
    return answer.exitCode === 0 ? '' : (answer.stdout ?? '');
  } finally {
    engine.free();
    await pool.end();
  }
}

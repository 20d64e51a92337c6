import { Server as HttpsServer } from 'node:https';
import { createServer } from 'node:net';
import { setTimeout as wait } from 'node:timers/promises';
import { Logger } from '@nestjs/common';
import type { NestFastifyApplication } from '@nestjs/platform-fastify';
import type { DailyBackup } from './platform/backups/index.js';
import type { DailySeals } from './modules/seals/index.js';
import { isOurOwn, type Config } from './platform/config/index.js';
import { connected, serviceDatabase, type ServiceDatabase } from './platform/database/index.js';
import { errorCode } from './platform/errors/index.js';
import { refuseRowsOfAnotherVersion } from './platform/ledger/made-by.js';
import { claim, isBakehouse, type Claim } from './platform/health/index.js';
import { ownDatabase } from './own-database.js';
import { followTls } from './platform/http/index.js';

const drainMs = 10_000;

/** The service as one process: the data folder, the database, the application, in this order; ended in the other. */
export class Service {
  private held: Extract<Claim, { ours: true }> | undefined;
  private database: ServiceDatabase | undefined;
  private app: NestFastifyApplication | undefined;
  private backups: DailyBackup | undefined;
  private seals: DailySeals | undefined;
  private starting: Promise<boolean> | undefined;
  private endTls: (() => void) | undefined;
  private readonly ending = new AbortController();

  constructor(
    private readonly config: Config,
    private readonly instance: string,
    private readonly say: (line: string) => void,
  ) {}

  /** Starts everything; false where a service runs already and nothing was started. */
  start(onLost: () => void): Promise<boolean> {
    return (this.starting = this.begin(onLost));
  }

  /** Answers what was asked, then ends the connections, then the database. A start that is under way fails for want of it. */
  async stop(): Promise<void> {
    this.ending.abort();
    await this.endWork();
    await this.starting?.catch(() => false);
    await this.end();
  }

  private async begin(onLost: () => void): Promise<boolean> {
    const { config, say } = this;
    if (config.OWNER_DATABASE_URL !== undefined)
      throw new Error(
        'The service does not run with the owner’s login in OWNER_DATABASE_URL: that is for npm run records -- migrate alone. Give the service DATABASE_URL only.',
      );
    const address = `${config.TLS_CERT_FILE === undefined ? 'http' : 'https'}://${config.HOST.includes(':') ? `[${config.HOST}]` : config.HOST}:${config.PORT}`;
    if (isOurOwn(config)) {
      const found = await claim(config.DATA_DIR, this.instance, say);
      if (!found.ours) {
        say(`Bakehouse Ledger is running already: ${found.url}`);
        return false;
      }
      this.held = found;
    }
    try {
      if (!(await portIsFree(config.HOST, config.PORT))) return await this.portTaken(address);
      await this.raise(onLost);
      return !this.ending.signal.aborted;
    } catch (error) {
      if (this.ending.signal.aborted) return false; // it failed because it was to stop
      await this.end();
      throw error;
    }
  }

  private async portTaken(address: string): Promise<false> {
    const ours = await isBakehouse(address);
    await this.end();
    if (!ours)
      throw new Error(
        `Port ${this.config.PORT} is taken by another program. End it, or choose another: PORT=${this.config.PORT + 1} npm start`,
      );
    if (isOurOwn(this.config))
      throw new Error(
        `Another Bakehouse Ledger, with another data folder, answers at ${address}. End it, or choose another port with PORT.`,
      );
    this.say(`Bakehouse Ledger is running already: ${address}`);
    return false;
  }

  private async raise(onLost: () => void): Promise<void> {
    const { config, say, instance } = this;
    const { database, lines } = await this.opened(onLost);
    this.database = database;
    if (this.ending.signal.aborted) return;
    await refuseRowsOfAnotherVersion(database);
    const { demandSealKeyOf } = await import('./modules/seals/index.js');
    await connected(database.serviceUrl, (client) => demandSealKeyOf(client, config));
    const { dailyBackup } = await import('./backup.command.js');
    this.backups = dailyBackup(database, config, new Logger('Backup'));
    const { dailySeals } = await import('./seal.command.js');
    const seals = (this.seals = dailySeals(database, config, new Logger('Seals')));
    const { createApp } = await import('./app.js'); // after the claim: a second start need not load it
    this.app = await createApp({ config, serviceUrl: database.serviceUrl, instance });
    await this.app.listen(config.PORT, config.HOST);
    this.endTls = this.follow(this.app.getHttpServer());
    const url = (await this.app.getUrl())
      .replace(/^http:/, config.TLS_CERT_FILE === undefined ? 'http:' : 'https:')
      .replace(/\[::\]|\[::1\]|0\.0\.0\.0|127\.0\.0\.1/, 'localhost');
    await this.held?.announce(url.replace('localhost', '127.0.0.1'));
    this.backups?.start();
    seals.start();
    say('ready');
    if (config.LOG_FORMAT === 'json') return; // what follows is for people
    process.stdout.write(
      [
        '',
        ...lines,
        ...(lines.length > 0 ? [''] : []),
        `  Bakehouse Ledger   ${url}`,
        `  The API            ${url}/api/docs`,
        '  Ctrl-C ends it.',
        '',
        '',
      ].join('\n'),
    );
  }

  /** The database as the service's role: of DATABASE_URL, or our own, which another process has prepared. With the lines that say who is in a demo. */
  private async opened(onLost: () => void): Promise<{ readonly database: ServiceDatabase; readonly lines: readonly string[] }> {
    const { config, say } = this;
    if (config.DATABASE_URL === undefined) {
      say(`starting the database in ${config.DATA_DIR}`);
      const own = await ownDatabase(config, { say, onLost, signal: this.ending.signal });
      return { database: own, lines: own.lines };
    }
    say('connecting to the database of DATABASE_URL');
    return { database: await serviceDatabase(config.DATABASE_URL), lines: [] };
  }

  /** Connections from the next renewal on get the renewed certificate. */
  private follow(server: unknown): (() => void) | undefined {
    if (!(server instanceof HttpsServer)) return undefined;
    const log = new Logger('TLS');
    return followTls(
      (tls) => server.setSecureContext(tls),
      this.config,
      (line) => log.error(line),
    );
  }

  /** The data folder is given back last: nobody else may have it while anything of ours runs in it. */
  private async end(): Promise<void> {
    await this.endWork();
    const { held } = this;
    this.held = undefined;
    await held?.release();
  }

  private async endWork(): Promise<void> {
    this.endTls?.();
    const { app, database, backups, seals } = this;
    [this.app, this.database, this.backups, this.seals] = [undefined, undefined, undefined, undefined];
    await Promise.all([backups?.stop(), seals?.stop()]);
    if (app) {
      const closing = app.close();
      await Promise.race([closing, wait(drainMs, undefined, { ref: false })]);
      app.getHttpServer().closeAllConnections(); // who still waits after that long has been given up
      await closing;
    }
    await database?.stop();
  }
}

function portIsFree(host: string, port: number): Promise<boolean> {
  return new Promise((resolve, reject) => {
    const probe = createServer();
    probe.once('error', (error) =>
      errorCode(error) === 'EADDRINUSE' ? resolve(false) : reject(new Error(`Cannot listen at ${host}, port ${port}: ${error.message}`)),
    );
    probe.listen(port, host, () => probe.close(() => resolve(true)));
  });
}

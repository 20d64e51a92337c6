import { randomUUID } from 'node:crypto';
import { Service } from './service.js';
import { systemClock } from './platform/clock/index.js';
import { readConfig, type Config } from './platform/config/index.js';
import { errorMessage } from './platform/errors/index.js';

/** One line of progress, with the seconds since the process began. */
const sayIn =
  (format: Config['LOG_FORMAT']) =>
  (line: string): void => {
    const seconds = performance.now() / 1000;
    const text =
      format === 'json'
        ? JSON.stringify({ level: 'log', timestamp: systemClock.now().getTime(), context: 'Start', message: line, seconds })
        : `${seconds.toFixed(1).padStart(6)} s  ${line}`;
    process.stdout.write(`${text}\n`);
  };

try {
  const config = readConfig();
  const say = sayIn(config.LOG_FORMAT);
  const service = new Service(config, randomUUID(), say);
  let asked: number | undefined;
  const end = (code: number): void => {
    // Ctrl-C under npm arrives twice, from the terminal and from npm. Asked again later: do not wait; the next start takes over what is left.
    if (asked !== undefined && performance.now() - asked > 2000) process.exit(130);
    if (asked !== undefined) return;
    asked = performance.now();
    say('stopping');
    void service.stop().then(
      () => process.exit(code),
      (error: unknown) => {
        say(errorMessage(error));
        process.exit(1);
      },
    );
  };
  for (const signal of ['SIGINT', 'SIGTERM', 'SIGHUP'] as const) process.on(signal, () => end(0));
  const lost = (): void => {
    say('The database ended, and nobody asked it to; its server.log says why.');
    end(1);
  };
  if (!(await service.start(lost)) && asked === undefined) process.exit(0);
} catch (error) {
  process.stderr.write(`${errorMessage(error)}\n`);
  process.exit(1);
}

import { randomUUID } from 'node:crypto';
import { Service } from './service.js';
import { readConfig } from './platform/config/index.js';
import { errorMessage } from './platform/error-code.js';

/** One line of progress, with the seconds since the process began. */
const say = (line: string): void => { process.stdout.write(`${(performance.now() / 1000).toFixed(1).padStart(6)} s  ${line}\n`); };

try {
  const service = new Service(readConfig(), randomUUID(), say);
  let asked = 0;
  const end = (code: number): void => {
    asked += 1;
    if (asked > 1) process.exit(130); // asked again: do not wait; the next start takes over what is left
    void service.stop().then(() => process.exit(code), (error: unknown) => { say(errorMessage(error)); process.exit(1); });
  };
  for (const signal of ['SIGINT', 'SIGTERM', 'SIGHUP'] as const) process.on(signal, () => { say('stopping'); end(0); });
  if (!(await service.start(() => { say('The database ended, and nobody asked it to; its server.log says why.'); end(1); }))) process.exitCode = 0;
} catch (error) {
  process.stderr.write(`${errorMessage(error)}\n`);
  process.exit(1);
}

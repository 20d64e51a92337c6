import { run } from './cli.js';

/** The commands where there is no npm, as in an image: node apps/api/dist/records.js migrate. */
process.exitCode = await run(process.argv.slice(2));

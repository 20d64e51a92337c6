// tsx libs/tooling/generators/verifier.ts FOLDER
// Writes what an outsider checks a bundle with, as the build of the pages does.
import { writeFileSync } from 'node:fs';
import path from 'node:path';
import { verifierFiles } from '../../../apps/web/build/verifier.ts';

const [folder = '.'] = process.argv.slice(2);
for (const [name, source] of Object.entries(await verifierFiles())) writeFileSync(path.join(folder, name), source);

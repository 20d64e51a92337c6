import { mkdtemp } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import path from 'node:path';

/** A folder of its own for a test that makes databases or backups: beside the run's database, in memory where there is room, and gone with the run. */
export const ownFolder = (prefix: string): Promise<string> => mkdtemp(path.join(process.env['BAKEHOUSE_TEST_FOLDER'] ?? tmpdir(), prefix));

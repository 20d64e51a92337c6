import { rowsBy } from '../../platform/database/index.js';

/**
 * Those of some lots that are contents of vessels, as `vessel` of a WITH: asked once of all of them, so that a walk that comes past lots of every other type works
 * nothing out about vessels.
 */
export const vesselsOf = (lots: string): string =>
  `vessel AS MATERIALIZED (SELECT id FROM (${rowsBy('lot', 'id', lots)}) l WHERE type = 'vessel')`;

/** Whether it is one of them: asked so that it stays a look-up among few, and is never made a join. */
export const ofVessel = (lot: string): string => `(${lot} IN (SELECT id FROM vessel)) IS TRUE`;

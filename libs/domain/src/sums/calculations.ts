import type { Calculation } from './calculation.js';

/** The one list of calculations: the API, OpenAPI and the tests all read it. */
export const calculations: readonly Calculation[] = [];

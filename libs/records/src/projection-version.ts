/**
 * The version of what the kinds' `rows` give. A book keeps the version that made its rows, and a start refuses to serve others. Whoever changes what
 * any kind's `rows` give, or the shape of a collection, raises it: the golden rows hold what this version gives.
 */
export const projectionVersion = 3;

/**
 * The version of what the kinds' `rows` give. A book keeps the version that made its rows, and a start refuses to serve others. It must be
 * raised with every change to what a kind's `rows` give or to the shape of a collection: the golden rows hold what this version gives.
 */
export const projectionVersion = 15;

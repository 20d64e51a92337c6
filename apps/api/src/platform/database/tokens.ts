/** The pool of the service's own connections (a pg.Pool). Reach for `Tenancy` first: without an organisation nothing is seen. */
export const SERVICE_POOL = Symbol('service pool');

import type { SecurityHeadersOptions } from '@nestjs/common';
import type { FastifyInstance } from 'fastify';

const own = "'self'";

/** Nothing from elsewhere, no frames, nothing inline. Plain HTTP in the house must work, so nothing is upgraded. */
export const securityHeaders: SecurityHeadersOptions = {
  contentSecurityPolicy: {
    useDefaults: false,
    directives: {
      defaultSrc: own,
      scriptSrc: own,
      styleSrc: own,
      connectSrc: own,
      workerSrc: own,
      manifestSrc: own,
      fontSrc: own,
      imgSrc: [own, 'data:', 'blob:'],
      objectSrc: "'none'",
      baseUri: "'none'",
      formAction: own,
      frameAncestors: "'none'",
    },
  },
  strictTransportSecurity: { includeSubDomains: false },
  xFrameOptions: { action: 'deny' },
};

/** What goes out with every answer beside the security headers: the request's number, and that an answer of the API is not kept. */
export function addHeaders(instance: FastifyInstance): void {
  instance.addHook('onRequest', (request, reply, done) => {
    void reply.header('x-request-id', request.id).header('permissions-policy', 'camera=(self), microphone=(), geolocation=()');
    if (request.url.startsWith('/api/v1/')) void reply.header('cache-control', 'no-store');
    done();
  });
}

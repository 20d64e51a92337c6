import type { FastifyInstance } from 'fastify';

export const imageTypes = ['image/jpeg', 'image/png', 'image/webp'] as const;

/** Takes pictures as the bytes that they are. Each route's own limit says how many. */
export function acceptImages(instance: FastifyInstance): void {
  instance.addContentTypeParser([...imageTypes], { parseAs: 'buffer' }, (_request, body, done) => done(null, body));
}

import { existsSync } from 'node:fs';
import path from 'node:path';
import fastifyStatic from '@fastify/static';
import type { FastifyInstance } from 'fastify';

/**
 * Serves the built web app: any address that is neither a file nor under /api gets its one page. A route, not a not-found
 * handler: Nest sets the only one of those. Files under assets/ carry their hash in the name and may be kept; the rest is asked for each time.
 * What the build compressed goes out so to everybody who takes it (`apps/web/build/precompress.ts`).
 */
export async function serveWeb(instance: FastifyInstance, folder: string): Promise<void> {
  if (!existsSync(path.join(folder, 'index.html'))) return;
  await instance.register(fastifyStatic, {
    root: folder,
    wildcard: false,
    cacheControl: false,
    preCompressed: true,
    setHeaders: (reply, file) => {
      reply.header('cache-control', path.relative(folder, file).startsWith('assets') ? 'public, max-age=31536000, immutable' : 'no-cache');
    },
  });
  instance.get('/*', (request, reply) => {
    const [address = ''] = request.url.split('?');
    return address.startsWith('/api') || address === '/metrics' || path.extname(address) !== ''
      ? reply.callNotFound()
      : reply.sendFile('index.html');
  });
}

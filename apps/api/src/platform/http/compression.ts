import fastifyCompress from '@fastify/compress';
import type { FastifyInstance } from 'fastify';

/** Below this many bytes an answer fits a packet or two as it is. */
const smallestBytes = 1400;

/**
 * Compresses what the API answers, where the asker can take it. Only to a GET: how long a compressed answer is can tell an onlooker whether what they
 * made a browser send stands in it beside a secret, and tokens, codes and signatures are only ever answered to a POST. The web app's files were
 * compressed when they were built; papers and pictures are packed already.
 */
export async function compressAnswers(instance: FastifyInstance): Promise<void> {
  instance.addHook('onRoute', (route) => {
    const asks = [route.method].flat().every((method) => method === 'GET' || method === 'HEAD');
    if (!asks || !route.url.startsWith('/api/')) route.compress = false;
  });
  await instance.register(fastifyCompress, { encodings: ['br', 'gzip'], threshold: smallestBytes, globalDecompression: false });
}

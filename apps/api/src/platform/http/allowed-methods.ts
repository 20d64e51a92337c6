import type { FastifyInstance } from 'fastify';

interface Route {
  readonly pattern: RegExp;
  readonly method: string;
}

/** Which methods an address of the API does answer to, so that a wrong method is told from a wrong address. */
export class AllowedMethods {
  private readonly routes: Route[] = [];

  constructor(instance: FastifyInstance) {
    instance.addHook('onRoute', ({ url, method }) => {
      if (!url.startsWith('/api/')) return;
      for (const one of [method].flat()) this.routes.push({ pattern: patternOf(url), method: one });
    });
  }

  at(url: string): string[] {
    const [path = ''] = url.split('?');
    return [...new Set(this.routes.filter((r) => r.pattern.test(path)).map((r) => r.method))].sort();
  }
}

function patternOf(url: string): RegExp {
  const parts = url
    .split('/')
    .map((part) => (part.startsWith(':') ? '[^/]+' : part === '*' ? '.*' : part.replace(/[.*+?^${}()|[\]\\]/g, '\\$&')));
  return new RegExp(`^${parts.join('/')}/?$`);
}

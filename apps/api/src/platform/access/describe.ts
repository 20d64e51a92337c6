import type { OpenAPIObject } from '@nestjs/swagger';
import { sessionCookie } from './cookies.js';

/** Describes by what a request may be signed on. */
export function describeAccess(document: OpenAPIObject): void {
  (document.components ??= {}).securitySchemes = {
    session: { type: 'http', scheme: 'bearer', description: 'What signing on answers; for programs.' },
    'session-cookie': { type: 'apiKey', in: 'cookie', name: sessionCookie, description: 'The same; for a browser.' },
    device: { type: 'apiKey', in: 'header', name: 'x-device-token', description: 'What enrolling a tablet answers.' },
  };
}

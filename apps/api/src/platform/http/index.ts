export { AllowedMethods } from './allowed-methods.js';
export { BodyLimit, heedBodyLimits, usualBodyLimit } from './body-limit.js';
export { addHeaders, securityHeaders } from './headers.js';
export { describeApi, serveApiPage, type Extension } from './openapi.js';
export { problemDocument, ProblemException, problemType, toDocument, type ProblemDocument } from './problem.js';
export { ProblemFilter, refuseAddress } from './problem.filter.js';
export { heedRateLimits, RateLimit } from './rate-limit.js';
export { validationPipe } from './validation.js';
export { serveWeb } from './web.js';

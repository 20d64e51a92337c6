export { childEnvironment, isOurOwn, projectRoot, readConfig, type Config } from './config.js';

/** Under this token the application's settings are injected. */
export const CONFIG = Symbol('Config');

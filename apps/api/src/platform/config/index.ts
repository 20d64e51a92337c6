export { childEnvironment, projectRoot, readConfig, type Config } from './config.js';

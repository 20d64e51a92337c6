// A file of its own: Jest calls each tear-down file once a run, and the browser's set-up counted itself.
export { default } from './global-teardown.mjs';

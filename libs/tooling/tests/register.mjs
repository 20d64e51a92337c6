import { register } from 'node:module';

process.setSourceMapsEnabled(true); // what fails names the line of the source
register('./loader.mjs', import.meta.url);

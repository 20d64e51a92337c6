// npm run test:long: the simulations and the tests of doubt at their full size (`test/support/size.ts`), which takes too long for every run.
process.env.TEST_SIZE = 'full';
process.argv.push('simulation', 'possible-worlds');
await import('./test.mjs');

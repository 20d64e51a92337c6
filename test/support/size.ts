/** As many as every run takes, or as many as `npm run test:long` does. */
export const size = (usual: number, full: number): number => (process.env['TEST_SIZE'] === 'full' ? full : usual);

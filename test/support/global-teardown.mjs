export default async function teardown() {}

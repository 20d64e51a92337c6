/** Work for the test of the threads: it answers, fails, grows without end, or never ends. */
export function work(asked: string): string {
  if (asked === 'fail') throw new Error('it failed');
  const kept: string[][] = [];
  while (asked === 'grow') kept.push(Array.from({ length: 100_000 }, (_, i) => `${kept.length} ${i}`));
  for (; asked === 'never end';);
  return asked;
}

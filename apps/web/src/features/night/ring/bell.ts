/** Two knocks on an empty tin and what rings on after them: made here, so that nothing has to be fetched. Partials as multiples of the lowest, with how loud. */
const partials = [
  [1, 0.5],
  [2.76, 0.22],
  [5.4, 0.1],
] as const;
const lowestHertz = 587;
const knocks = [0, 0.22] as const;

let context: AudioContext | undefined;

/** Makes the sound ready; a browser lets a page be heard only once somebody touched it. Gives whether it can be heard now. */
export function readyToRing(): 'heard' | 'after-a-touch' | 'never' {
  if (typeof AudioContext === 'undefined') return 'never';
  context ??= new AudioContext();
  if (context.state !== 'running') void context.resume().catch(() => undefined);
  return context.state === 'running' ? 'heard' : 'after-a-touch';
}

/** Rings once, by sound and, where the device can, by shaking. */
export function ring(): void {
  if (navigator.userActivation?.hasBeenActive) navigator.vibrate?.([200, 120, 200]);
  if (readyToRing() !== 'heard' || context === undefined) return;
  for (const after of knocks) knock(context, context.currentTime + after);
}

function knock(to: AudioContext, at: number): void {
  for (const [multiple, loud] of partials) {
    const [tone, level] = [to.createOscillator(), to.createGain()];
    tone.frequency.value = lowestHertz * multiple;
    level.gain.setValueAtTime(loud, at);
    level.gain.exponentialRampToValueAtTime(0.001, at + 1.1 / multiple);
    tone.connect(level).connect(to.destination);
    tone.start(at);
    tone.stop(at + 1.2 / multiple);
  }
}

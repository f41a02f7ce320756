const PULSES_MS = [200, 100, 200];
const TONE_HZ = 880;
const TONE_S = 0.25;

/** Sound and shake once: only for the seven checks that may interrupt. What the phone cannot do, or not before a first tap, it leaves out. */
export function alarm(): void {
  const phone = navigator as Partial<Navigator>;
  if (phone.userActivation?.hasBeenActive) phone.vibrate?.(PULSES_MS);
  const Sound = (globalThis as Partial<typeof globalThis>).AudioContext;
  if (!Sound) return;
  const sound = new Sound();
  const tone = sound.createOscillator();
  tone.frequency.value = TONE_HZ;
  tone.connect(sound.destination);
  tone.onended = () => void sound.close();
  tone.start();
  tone.stop(sound.currentTime + TONE_S);
}

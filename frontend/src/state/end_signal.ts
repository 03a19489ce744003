/** Says that a time is up to someone who is not looking: a short tone and a buzz, where the phone has them. */
const SOUND_KEY = "underlid-timer-sound";

class EndSignal {
  #audio: AudioContext | null = null;

  get isSoundOn(): boolean {
    return localStorage.getItem(SOUND_KEY) !== "off";
  }
  turnSound(isOn: boolean): void {
    localStorage.setItem(SOUND_KEY, isOn ? "on" : "off");
  }
  /** Phones let a page sound only after a tap: call it from one. */
  prepare(): void {
    if (!this.isSoundOn || typeof AudioContext === "undefined") return;
    this.#audio ??= new AudioContext();
    void this.#audio.resume().catch(() => undefined);
  }
  give(): void {
    navigator.vibrate?.([300, 150, 300, 150, 300]);
    if (this.isSoundOn && this.#audio?.state === "running") for (const at of [0, 0.35, 0.7]) this.#tone(this.#audio, at);
  }
  #tone(audio: AudioContext, at: number): void {
    const tone = audio.createOscillator();
    const loudness = audio.createGain();
    tone.frequency.value = 880;
    loudness.gain.value = 0.4;
    tone.connect(loudness).connect(audio.destination);
    tone.start(audio.currentTime + at);
    tone.stop(audio.currentTime + at + 0.22);
  }
}

export const endSignal = new EndSignal();

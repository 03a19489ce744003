/** Who is signed in and what this phone knows, also on a cold start without a signal. */
import { t } from "../messages";
import type { LimitSet, Specification } from "../store/document";
import { askToPersist, deviceId, keep, kept } from "../store/key_value";
import {
  currentSession,
  keptReference,
  refreshReference,
  shareDevice,
  sharedDevice,
  signIn,
  signInByPin,
  signOut,
} from "../sync/reference";
import { arePasskeysHere, signInByPasskey } from "../sync/passkeys";
import { NoAnswer, Refused } from "../sync/wire";
import type { Me, Reference, SharedDevice } from "../trade/types";

export class Session {
  #me = $state.raw<Me | null>(null);
  #reference = $state.raw<Reference | null>(null);
  #ready = $state(false);
  #mustSignIn = $state(false);
  #offsetMs = $state(0);
  #online = $state(true);
  #persisted = $state<boolean | null>(null);
  #device = "";
  #revoked = $state<string | null>(null);
  #shared = $state.raw<SharedDevice | null>(null);

  get me(): Me | null {
    return this.#me;
  }
  get reference(): Reference | null {
    return this.#reference;
  }
  /** The kept identity has been read; before that nothing may be decided. */
  get ready(): boolean {
    return this.#ready;
  }
  /** The server asks for a new sign-in. What is on the phone stays usable. */
  get mustSignIn(): boolean {
    return this.#mustSignIn;
  }
  get clockOffsetMs(): number {
    return this.#offsetMs;
  }
  /** The last request reached the server. */
  get online(): boolean {
    return this.#online;
  }
  get persisted(): boolean | null {
    return this.#persisted;
  }
  get device(): string {
    return this.#device;
  }
  get canUsePasskey(): boolean {
    return arePasskeysHere();
  }

  /** Why the server takes nothing from this device; what is on it stays. */
  get revoked(): string | null {
    return this.#revoked;
  }
  /** What a shared device knows of itself; null for one of somebody's own. */
  get shared(): SharedDevice | null {
    return this.#shared;
  }

  async start(): Promise<void> {
    this.#device = await deviceId();
    this.#shared = await kept<SharedDevice>("shared_device");
    this.#me = await kept<Me>("me");
    const before = await keptReference();
    this.#reference = before?.reference ?? null;
    this.#offsetMs = before?.clock_offset_ms ?? 0;
    this.#persisted = await askToPersist().catch(() => null);
    if (this.#me && this.#reference) this.#ready = true;
    await this.refresh();
    this.#ready = true;
  }

  /** Ask the server who is signed in and what has changed. Without a signal nothing changes. */
  async refresh(): Promise<void> {
    try {
      const { me, revoked } = await currentSession();
      this.#online = true;
      this.#revoked = revoked;
      if (this.#shared) await this.#lookAtShared();
      if (revoked) return;
      if (me) await this.#welcome(me);
      else this.#mustSignIn = this.#me !== null;
    } catch (error) {
      this.noteAnswer(error);
    }
  }

  /** Note from a failed request whether the server was reached and wants a sign-in. */
  noteAnswer(error: unknown): void {
    if (error instanceof NoAnswer) this.#online = false;
    else if (error instanceof Refused && error.status === 401) this.askForSignIn();
  }

  askForSignIn(): void {
    this.#mustSignIn = this.#me !== null;
  }

  async #welcome(me: Me): Promise<void> {
    const now = await refreshReference();
    this.#me = me;
    await keep("me", me);
    this.#reference = now.reference;
    this.#offsetMs = now.clock_offset_ms;
    this.#mustSignIn = false;
  }

  /** Sign in. Throws NoAnswer or Refused, with a sentence for the person. */
  async signIn(username: string, password: string): Promise<void> {
    await this.#welcome(await signIn(username, password, this.#device));
    this.#online = true;
    this.#persisted = await askToPersist().catch(() => null);
  }

  /** Sign in by what this device holds. Throws as above, and the browser's own error where its owner gave none. */
  async signInByPasskey(): Promise<void> {
    await this.#welcome(await signInByPasskey(this.#device));
    this.#online = true;
  }

  /** Take a shared device into one's hands. Throws NoAnswer or Refused, with a sentence for the person. */
  async signInByPin(person: number, pin: string): Promise<void> {
    await this.#welcome(await signInByPin(person, pin));
    this.#online = true;
  }

  /** Make this device a shared one of the code's site. Throws NoAnswer or Refused. */
  async share(code: string): Promise<void> {
    await this.#keepShared(await shareDevice(code, this.#device));
    this.#revoked = null;
  }

  async #lookAtShared(): Promise<void> {
    await this.#keepShared(await sharedDevice());
  }
  async #keepShared(now: SharedDevice): Promise<void> {
    this.#shared = now.device ? now : null;
    await keep("shared_device", this.#shared);
  }

  /** Sign out on this phone. What waits stays and is sent at the next sign-in. */
  async signOut(): Promise<void> {
    await signOut().catch((error: unknown) => this.noteAnswer(error));
    await keep("me", null);
    this.#me = null;
    this.#mustSignIn = false;
  }

  supplierName(id: string): string {
    return this.#reference?.suppliers.find((supplier) => supplier.id === id)?.name ?? t("dock-session-supplier-not-on");
  }
  specification(id: string): Specification | null {
    return this.#reference?.specifications.find((specification) => specification.id === id) ?? null;
  }
  limitSet(id: string): LimitSet | null {
    const sets = this.#reference?.limit_sets ?? [];
    return sets.find((set) => set.id === id) ?? null;
  }
}

export const session = new Session();

/** Why a sign-in did not work, as a sentence. */
export function signInSentence(error: unknown): string {
  if (error instanceof NoAnswer) {
    return t("dock-session-server-could-not");
  }
  if (error instanceof Refused) return error.sentence;
  return t("dock-session-signing-in-did");
}

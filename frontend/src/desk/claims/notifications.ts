/** This browser's own subscription at its push service (W3C Push API), and that the server knows it. */
import * as api from "../api";
import { t } from "../../messages/claims";

const PATIENCE_MS = 10_000;
const canHere = (): boolean => "serviceWorker" in navigator && "PushManager" in globalThis && "Notification" in globalThis;

async function registration(): Promise<ServiceWorkerRegistration | undefined> {
  return canHere() ? await navigator.serviceWorker.getRegistration() : undefined;
}

/** The server's id of this browser's subscription; "" while there is none, null where there can be none. */
export async function isOn(): Promise<string | null> {
  const here = await registration();
  if (!here) return null;
  const own = await here.pushManager.getSubscription();
  if (!own) return "";
  const hash = await sha256(own.endpoint);
  return (await api.notifications()).rows.find((row) => row.endpoint_sha256 === hash)?.id ?? "";
}

/** Ask the person, then the push service, and tell the server; the new id, or in words why not. */
export async function start(): Promise<{ id: string } | { why: string }> {
  const here = await registration();
  if (!here) return { why: t("desk-claims-notify-none") };
  if (Notification.permission === "denied") return { why: t("desk-claims-notify-denied") };
  if ((await Notification.requestPermission()) !== "granted") return { why: t("desk-claims-notify-not-now") };
  const { public_key } = await api.notifications();
  let own: PushSubscription;
  try {
    // one that was made with an earlier key of the server's would be refused
    await (await here.pushManager.getSubscription())?.unsubscribe();
    const asked = here.pushManager.subscribe({ userVisibleOnly: true, applicationServerKey: public_key });
    own = await Promise.race([asked, late()]);
  } catch {
    return { why: t("desk-claims-notify-failed") };
  }
  const { endpoint, keys } = own.toJSON();
  return { id: (await api.subscribe({ endpoint: endpoint!, p256dh: keys!.p256dh!, auth: keys!.auth! })).id };
}

export async function stop(id: string): Promise<void> {
  await api.unsubscribe(id);
  await (await (await registration())?.pushManager.getSubscription())?.unsubscribe();
}

/** Some browsers never say that they reach no push service. */
const late = (): Promise<never> => new Promise((_, refuse) => setTimeout(refuse, PATIENCE_MS));

async function sha256(text: string): Promise<string> {
  const hash = await crypto.subtle.digest("SHA-256", new TextEncoder().encode(text));
  return [...new Uint8Array(hash)].map((byte) => byte.toString(16).padStart(2, "0")).join("");
}

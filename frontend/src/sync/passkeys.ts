/** Passkeys: what the browser holds for its owner, told to the server and back as the browser writes it itself. */
import type { Me, PasskeyOptions, PasskeyRow } from "../trade/types";
import { kindOfDevice, request } from "./wire";

/** Browsers offer them over HTTPS or on the machine itself, for names; older ones cannot write them down as JSON. */
export const arePasskeysHere = (): boolean =>
  typeof PublicKeyCredential !== "undefined" &&
  "parseRequestOptionsFromJSON" in PublicKeyCredential &&
  !/^[\d.:[\]]+$/.test(location.hostname);

/** Sign in. Throws NoAnswer, Refused, or the browser's own error where the owner gave none. */
export async function signInByPasskey(device_id: string): Promise<Me> {
  await request("/api/session");
  const { body } = await request<PasskeyOptions>("/api/session/passkey/options", { method: "POST" });
  const publicKey = PublicKeyCredential.parseRequestOptionsFromJSON(body.publicKey as unknown as PublicKeyCredentialRequestOptionsJSON);
  const credential = written(await navigator.credentials.get({ publicKey }));
  const given = { credential, device_id, device_label: kindOfDevice(navigator.userAgent) };
  return (await request<Me>("/api/session/passkey", { method: "POST", body: given })).body;
}

/** Have the browser make one and the server keep it; throws as above. */
export async function addPasskey(password: string, label: string): Promise<PasskeyRow> {
  const { body } = await request<PasskeyOptions>("/api/passkeys/options", { method: "POST", body: { password } });
  const publicKey = PublicKeyCredential.parseCreationOptionsFromJSON(body.publicKey as unknown as PublicKeyCredentialCreationOptionsJSON);
  const credential = written(await navigator.credentials.create({ publicKey }));
  return (await request<PasskeyRow>("/api/passkeys", { method: "POST", body: { credential, label } })).body;
}

function written(credential: Credential | null): unknown {
  if (!(credential instanceof PublicKeyCredential)) throw new Error("no passkey was given");
  return credential.toJSON();
}

/** The one door to the network: every request of the app goes through `request`. */
import { t } from "../messages";
import { uuidv7 } from "uuidv7";
import type { Problem } from "../store/schema";

/** The version of the device protocol that this app speaks. A server that does not know it says so and takes nothing. */
export const PROTOCOL = { "X-Underlid-Protocol": "1" };

/** No answer came: no signal, the server is down, or the request took too long. */
export class NoAnswer extends Error {}

/** The server answered, and not with what was asked for. */
export class Refused extends Error {
  constructor(
    readonly status: number,
    readonly code: string,
    readonly sentence: string,
    readonly facts: Record<string, unknown>,
    readonly body: Record<string, unknown>,
    /** Seconds the server asks to wait, or null. */
    readonly retryAfter: number | null,
  ) {
    super(`${status} ${code}`);
  }

  problem(): Problem {
    return { code: this.code, sentence: this.sentence, facts: this.facts, at: new Date().toISOString() };
  }
}

export interface Answer<T> {
  status: number;
  etag: string | null;
  /** The server's clock at the answer. */
  date?: string | null;
  body: T;
}

export interface Asked {
  method?: "GET" | "HEAD" | "PUT" | "POST" | "DELETE";
  /** A file or a form goes as it is, all else as JSON. */
  body?: unknown;
  headers?: Record<string, string>;
  timeoutMs?: number;
}

export type Request = <T>(path: string, asked?: Asked) => Promise<Answer<T>>;

/**
 * Ask the server for something.
 *
 * Answers 2xx and 304; throws NoAnswer without a signal and Refused for every other status.
 */
export const request: Request = async <T>(path: string, asked: Asked = {}): Promise<Answer<T>> => {
  let response = await send(path, asked);
  let body = await read(response);
  if (response.status === 403 && (body as { code?: string }).code === "PAGE-STALE") {
    // the CSRF cookie has run out or changed with a new sign-in: fetch it anew and say the same again
    await read(await send("/api/session", {}));
    response = await send(path, asked);
    body = await read(response);
  }
  if (response.ok || response.status === 304) {
    return { status: response.status, etag: response.headers.get("ETag"), date: response.headers.get("Date"), body: body as T };
  }
  throw refusal(response, body, path);
};

async function send(path: string, asked: Asked): Promise<Response> {
  const method = asked.method ?? "GET";
  const headers: Record<string, string> = { Accept: "application/json", "X-Request-ID": uuidv7(), ...PROTOCOL, ...asked.headers };
  // A form names its own content type, with the mark that parts it.
  const type = asked.body instanceof Blob ? asked.body.type || "text/csv" : "application/json";
  if (asked.body !== undefined && !(asked.body instanceof FormData)) headers["Content-Type"] = type;
  if (method !== "GET" && method !== "HEAD") headers["X-CSRFToken"] = csrfToken();
  try {
    return await fetch(path, {
      method,
      headers,
      body:
        asked.body === undefined
          ? null
          : asked.body instanceof Blob || asked.body instanceof FormData
            ? asked.body
            : JSON.stringify(asked.body),
      credentials: "same-origin",
      cache: "no-store",
      signal: AbortSignal.timeout(asked.timeoutMs ?? 20_000),
    });
  } catch (cause) {
    throw new NoAnswer(`${method} ${path}`, { cause });
  }
}

async function read(response: Response): Promise<unknown> {
  const type = response.headers.get("Content-Type") ?? "";
  try {
    const text = await response.text();
    return type.includes("json") && text ? JSON.parse(text) : {};
  } catch (cause) {
    // cut off half way: as good as no answer, the same request goes again
    throw new NoAnswer(response.url, { cause });
  }
}

function refusal(response: Response, body: unknown, path: string): Refused {
  const said = (typeof body === "object" && body !== null ? body : {}) as Record<string, unknown>;
  const retry = Number(response.headers.get("Retry-After") ?? NaN);
  return new Refused(
    response.status,
    typeof said.code === "string" ? said.code : `HTTP-${response.status}`,
    typeof said.sentence === "string" ? said.sentence : sentenceFor(response.status, path),
    (said.facts as Record<string, unknown> | undefined) ?? {},
    said,
    Number.isFinite(retry) ? retry : null,
  );
}

/** For answers that carry no sentence of their own, such as those of a proxy in between. */
function sentenceFor(status: number, path: string): string {
  // only what goes the phone's way waits on it and goes again by itself
  if (!path.startsWith("/sync/")) return t("dock-wire-server-could-not", { status });
  if (status >= 500) return t("dock-wire-server-had-trouble");
  return t("dock-wire-server-did-not", { status });
}

export function csrfToken(): string {
  return /(?:^|; )csrftoken=([^;]+)/.exec(document.cookie)?.[1] ?? "";
}

/** What other phones and the desk are told this one is. */
export function kindOfDevice(userAgent: string): string {
  if (/iPad|Tablet/.test(userAgent)) return "tablet";
  if (/iPhone|Android.*Mobile/.test(userAgent)) return "phone";
  return /Android/.test(userAgent) ? "tablet" : "computer";
}

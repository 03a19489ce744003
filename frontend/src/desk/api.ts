/** What the desk asks of the server. */
import { request } from "../sync/wire";
import type { AdviceSwitch, AgreementAnswer, ClaimDetail, ClaimFigures, ClaimRow, ClaimsAnswer, ClaimTerms } from "../trade/types";
import type { Addendum } from "../trade/types";
import type { Row } from "./keep/kinds";
import type {
  Comparison,
  DeedRow,
  DeliveryDetail,
  DeliveryPage,
  DeviceRow,
  EvidenceLink,
  ImportKind,
  ImportReport,
  Limit,
  LimitsAnswer,
  LoggerFile,
  LotsAnswer,
  Measures,
  NewEvidenceLink,
  NotificationRow,
  NotificationsAnswer,
  OrderRow,
  ParkedAnswer,
  Passkeys,
  Seal,
  Sheet,
  Summary,
  SummaryWish,
  SupplierInvited,
  SupplierParts,
  SupplierPeopleAnswer,
  TableWords,
  ThermometerHere,
  Trial,
} from "../trade/types";

const PATIENCE_MS = 30_000;

export interface DeliveryFilter {
  site?: string;
  supplier?: string;
  state?: string;
  /** "yes": only deliveries with refused or held cartons. */
  refused?: string;
  /** "yes": only deliveries with a defective carton. */
  defective?: string;
  q?: string;
  from?: string;
  to?: string;
  page?: string;
}
export const deliveries = (filter: DeliveryFilter) => ask<DeliveryPage>("GET", `/api/deliveries${queried({ ...filter })}`);
export const lots = (q: string) => ask<LotsAnswer>("GET", `/api/lots${queried({ q })}`);
export const delivery = (id: string) => ask<DeliveryDetail>("GET", `/api/deliveries/${encodeURIComponent(id)}`);
export const photoUrl = (sha256: string, size: "thumb" | "screen" | "original" | "overlay" | "histogram") =>
  `/api/photos/${sha256}/${size}`;

export const seals = async (delivery: string) =>
  (await ask<{ seals: Seal[] }>("GET", `/api/deliveries/${encodeURIComponent(delivery)}/seals`)).seals;
export const worksheet = (delivery: string) => ask<Sheet>("GET", `/api/deliveries/${encodeURIComponent(delivery)}/worksheet`);
export const evidenceLinks = async (delivery: string) =>
  (await ask<{ links: EvidenceLink[] }>("GET", `/api/deliveries/${encodeURIComponent(delivery)}/evidence-links`)).links;
export const makeEvidenceLink = (delivery: string, days: number, to_whom: string) =>
  ask<NewEvidenceLink>("POST", `/api/deliveries/${encodeURIComponent(delivery)}/evidence-links`, { days, to_whom });
export const endEvidenceLink = (id: string) => ask<unknown>("DELETE", `/api/evidence-links/${encodeURIComponent(id)}`);

/** An addition to a signed delivery, by the way that phones send theirs; it is sealed at once. */
export const addendum = (body: Addendum) =>
  ask<unknown>("PUT", `/sync/deliveries/${encodeURIComponent(body.delivery_id)}/addenda/${encodeURIComponent(body.id)}`, body);

export const loggerFiles = async (delivery: string) =>
  (await ask<{ rows: LoggerFile[] }>("GET", `/api/deliveries/${encodeURIComponent(delivery)}/logger-files`)).rows;
/** Add a logger file with the answers that it needed; a refusal that asks for one carries `ask`. */
export function sendLoggerFile(delivery: string, file: File, told: Record<string, string>): Promise<LoggerFile> {
  const form = new FormData();
  form.append("file", file, file.name);
  for (const [name, value] of Object.entries(told)) form.append(name, value);
  return ask<LoggerFile>("POST", `/api/deliveries/${encodeURIComponent(delivery)}/logger-files`, form);
}

export const comparison = (asked: { from?: string; to?: string; site?: string }) =>
  ask<Comparison>("GET", `/api/comparison${queried(asked)}`);
export const supplierParts = (id: string, asked: { from?: string; to?: string; site?: string }) =>
  ask<SupplierParts>("GET", `/api/comparison/suppliers/${encodeURIComponent(id)}${queried(asked)}`);
export const measures = (asked: Record<string, string | undefined>) => ask<Measures>("GET", `/api/measures${queried(asked)}`);
export const summary = (asked: { month?: string; site?: string }) => ask<Summary>("GET", `/api/summary${queried(asked)}`);
export const summaryWish = () => ask<SummaryWish>("GET", "/api/summary/mail");
export const wishSummary = (wanted: boolean) => ask<SummaryWish>("PUT", "/api/summary/mail", { wanted });
export const tables = () => ask<{ tables: TableWords[]; files: string[] }>("GET", "/api/tables");
export const agreement = (asked: { from?: string; to?: string; site?: string }) =>
  ask<AgreementAnswer>("GET", `/api/agreement${queried(asked)}`);
export const switchAdvice = (specification: string, is_on: boolean) =>
  ask<AdviceSwitch>("POST", `/api/specifications/${encodeURIComponent(specification)}/advice`, { is_on });
export const orders = (asked: { site?: string; from?: string; to?: string }) =>
  ask<{ rows: OrderRow[] }>("GET", `/api/orders${queried(asked)}`);
export const thermometers = (asked: { site?: string }) =>
  ask<{ allowed_c: number; rows: ThermometerHere[] }>("GET", `/api/thermometers${queried(asked)}`);
export const limits = () => ask<LimitsAnswer>("GET", "/api/limits");
export const publishLimits = (name: string, default_plan: string, list: Limit[]) =>
  ask<LimitsAnswer>("POST", "/api/limits", { name, default_plan, limits: list });
/** Another set of limits or plan, tried on signed deliveries of some days; nothing is changed. */
export const tryLimits = (asked: { limits: unknown; plan: string; from: string; to: string; site?: string }) =>
  ask<Trial>("POST", "/api/limits/trials", asked);

export const claims = (asked: Record<string, string>) => ask<ClaimsAnswer>("GET", `/api/claims${queried(asked)}`);
export const claimFigures = (asked: { site?: string }) => ask<{ rows: ClaimFigures[] }>("GET", `/api/claims/figures${queried(asked)}`);
export const claimsOf = async (delivery: string) =>
  (await ask<{ rows: ClaimRow[] }>("GET", `/api/deliveries/${encodeURIComponent(delivery)}/claims`)).rows;
export const claim = (id: string) => ask<ClaimDetail>("GET", `/api/claims/${encodeURIComponent(id)}`);
export const draftClaim = (line: string) => ask<ClaimDetail>("POST", "/api/claims", { line });
export const changeClaim = (id: string, items: Record<string, unknown>[]) =>
  ask<ClaimDetail>("PUT", `/api/claims/${encodeURIComponent(id)}`, { items });
export const dropClaim = (id: string) => ask<unknown>("DELETE", `/api/claims/${encodeURIComponent(id)}`);
export const sayInClaim = (id: string, said: FormData) => ask<ClaimDetail>("POST", `/api/claims/${encodeURIComponent(id)}/entries`, said);
export const sendClaimMailAgain = (id: string, mail: string) =>
  ask<ClaimDetail>("POST", `/api/claims/${encodeURIComponent(id)}/mails/${encodeURIComponent(mail)}`, {});
export const supplierPeople = async (supplier: string) =>
  (await ask<SupplierPeopleAnswer>("GET", `/api/suppliers/${encodeURIComponent(supplier)}/people`)).rows;
export const inviteSupplierPerson = (supplier: string, name: string, email: string) =>
  ask<SupplierInvited>("POST", `/api/suppliers/${encodeURIComponent(supplier)}/people`, { name, email });
export const letSupplierPersonIn = (supplier: string, person: number, is_active: boolean) =>
  ask<SupplierInvited>("PUT", `/api/suppliers/${encodeURIComponent(supplier)}/people/${person}`, { is_active });
export const notifications = () => ask<NotificationsAnswer>("GET", "/api/notifications");
export const subscribe = (browser: { endpoint: string; p256dh: string; auth: string }) =>
  ask<NotificationRow>("POST", "/api/notifications", browser);
export const unsubscribe = (id: string) => ask<unknown>("DELETE", `/api/notifications/${encodeURIComponent(id)}`);
export const claimTerms = (supplier: string) => ask<ClaimTerms>("GET", `/api/suppliers/${encodeURIComponent(supplier)}/claim-terms`);
export const keepClaimTerms = (supplier: string, terms: { currency: string; notice_hours: number; answer_hours: number }) =>
  ask<ClaimTerms>("PUT", `/api/suppliers/${encodeURIComponent(supplier)}/claim-terms`, terms);

export const kept = (kind: string) => ask<{ rows: Row[] }>("GET", `/api/kept/${kind}`);
/** Add an entry, or change the one of that id; gives it as it now stands. */
export const keep = (kind: string, id: string | null, body: Record<string, unknown>) =>
  ask<Row>(id ? "PUT" : "POST", `/api/kept/${kind}${id ? `/${encodeURIComponent(id)}` : ""}`, body);
export const devices = () => ask<{ rows: DeviceRow[] }>("GET", "/api/devices");
export const deviceCode = (site: string, label: string) =>
  ask<{ code: string; expires_at: string }>("POST", "/api/devices", { site, label });
export const switchDevice = (id: string, is_revoked: boolean) =>
  ask<DeviceRow>("PUT", `/api/devices/${encodeURIComponent(id)}`, { is_revoked });
export const trail = (asked: { site?: string; q?: string; page?: string }) =>
  ask<{ rows: DeedRow[]; page: number; pages: number }>("GET", `/api/trail${queried(asked)}`);
export const passkeys = () => ask<Passkeys>("GET", "/api/passkeys");
export const dropPasskey = (id: number) => ask<unknown>("DELETE", `/api/passkeys/${id}`);
export const parked = () => ask<ParkedAnswer>("GET", "/api/parked");
export const tryAgain = (id: string) => ask<unknown>("POST", `/api/parked/${encodeURIComponent(id)}`);
export const setPin = (password: string, pin: string) => ask<unknown>("PUT", "/api/pin", { password, pin });

/** Send a table, CSV or .xlsx; a dry run checks every line and saves nothing. */
export function importRows(kind: ImportKind, table: Blob, isDryRun: boolean): Promise<ImportReport> {
  return ask<ImportReport>("POST", `/api/imports/${kind}${isDryRun ? "?dry_run=1" : ""}`, table);
}

function queried(asked: Record<string, string | undefined>): string {
  const filled = Object.entries(asked).filter((pair): pair is [string, string] => Boolean(pair[1]));
  return filled.length ? `?${new URLSearchParams(filled)}` : "";
}

async function ask<T>(method: "GET" | "POST" | "PUT" | "DELETE", path: string, body?: unknown): Promise<T> {
  return (await request<T>(path, { method, body, timeoutMs: PATIENCE_MS })).body;
}

/// <reference lib="webworker" />
/**
 * Serves the whole app from the phone; everything that is data goes to the network, untouched.
 *
 * A first visit keeps what the dock needs, and the rest when the page is idle. An update keeps all before it may take
 * over, so that nothing which worked without a signal stops. Files are asked for all at once: one after another costs
 * a round trip each, which is most of a first visit on a slow network.
 */
declare const self: ServiceWorkerGlobalScope & { __WB_MANIFEST: Array<{ url: string; revision: string | null; first?: boolean }> };

const CACHE = "underlid";
/** What the server answers by itself; the suppliers' pages and the check of an evidence file are no part of the app. */
const DATA = /^\/(api|sync|e|admin|static|supplier|verify|health|metrics)(\/|$)/;
const FILES = self.__WB_MANIFEST.map(({ url, revision, first }) => {
  const { href, pathname } = new URL(url, self.location.origin);
  // a name without its content's hash in it is told apart by its revision
  return { pathname, name: revision ? `${href}?v=${revision}` : href, first };
});
const NAMES = new Map(FILES.map(({ pathname, name }) => [pathname, name]));

async function keep(files: typeof FILES): Promise<void> {
  const cache = await caches.open(CACHE);
  const kept = new Set((await cache.keys()).map(({ url }) => url));
  await Promise.all(files.filter(({ name }) => !kept.has(name)).map(({ name }) => cache.add(name)));
}

async function clearEarlier(): Promise<void> {
  for (const name of await caches.keys()) if (name !== CACHE) await caches.delete(name);
  const [cache, wanted] = [await caches.open(CACHE), new Set(NAMES.values())];
  for (const request of await cache.keys()) if (!wanted.has(request.url)) await cache.delete(request);
}

self.addEventListener("install", (event) => event.waitUntil(keep(self.registration.active ? FILES : FILES.filter(({ first }) => first))));
// The first visit must already be enough for a cold start without a signal.
self.addEventListener("activate", (event) => event.waitUntil(clearEarlier().then(() => self.clients.claim())));

self.addEventListener("message", (event) => {
  if (event.data?.type === "SKIP_WAITING") void self.skipWaiting();
  if (event.data?.type !== "KEEP_REST") return;
  // a page that was loading while this worker began has been passed over by the claim above
  event.waitUntil(self.clients.claim());
  // without a signal the page asks again at its next start
  event.waitUntil(keep(FILES).catch(() => undefined));
});

self.addEventListener("fetch", (event) => {
  const { origin, pathname } = new URL(event.request.url);
  if (event.request.method !== "GET" || origin !== self.location.origin) return;
  const isPage = event.request.mode === "navigate" && !DATA.test(pathname);
  const name = NAMES.get(isPage ? "/index.html" : pathname);
  if (name) event.respondWith(caches.match(name, { ignoreVary: true }).then((kept) => kept ?? fetch(event.request)));
});

/** Background Sync, where there is one: the signal is back, so let an open page send what waits. */
self.addEventListener("sync", (event) => {
  (event as ExtendableEvent).waitUntil(tellPages());
});

async function tellPages(): Promise<void> {
  for (const page of await self.clients.matchAll({ type: "window", includeUncontrolled: true })) {
    page.postMessage("underlid-send");
  }
}

/** A notification of the desk's, in a message that only this browser could open. */
self.addEventListener("push", (event) => {
  const told = event.data?.json() as { title: string; text: string; address: string } | undefined;
  if (told) event.waitUntil(self.registration.showNotification(told.title, { body: told.text, data: told.address, icon: "/icon.svg" }));
});

self.addEventListener("notificationclick", (event) => {
  event.notification.close();
  event.waitUntil(self.clients.openWindow(String(event.notification.data)));
});

export {};

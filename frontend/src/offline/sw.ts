/// <reference lib="webworker" />
/** Serves the whole app from the phone; everything that is data goes to the network, untouched. */
import { cleanupOutdatedCaches, createHandlerBoundToURL, precacheAndRoute } from "workbox-precaching";
import { NavigationRoute, registerRoute } from "workbox-routing";

declare const self: ServiceWorkerGlobalScope & { __WB_MANIFEST: Array<{ url: string; revision: string | null }> };

precacheAndRoute(self.__WB_MANIFEST);
cleanupOutdatedCaches();
registerRoute(
  new NavigationRoute(createHandlerBoundToURL("/index.html"), {
    denylist: [/^\/api(\/|$)/, /^\/sync(\/|$)/, /^\/e\//, /^\/admin(\/|$)/, /^\/static(\/|$)/],
  }),
);

self.addEventListener("message", (event) => {
  if (event.data?.type === "SKIP_WAITING") void self.skipWaiting();
});
// The first visit must already be enough for a cold start without a signal.
self.addEventListener("activate", (event) => event.waitUntil(self.clients.claim()));

/** Background Sync, where there is one: the signal is back, so let an open page send what waits. */
self.addEventListener("sync", (event) => {
  (event as ExtendableEvent).waitUntil(tellPages());
});

async function tellPages(): Promise<void> {
  for (const page of await self.clients.matchAll({ type: "window", includeUncontrolled: true })) {
    page.postMessage("underlid-send");
  }
}

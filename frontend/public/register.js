// A first visit begins to keep the app at once, beside the page's own scripts; later visits look for updates from the page.
const { serviceWorker } = navigator;
if (serviceWorker && !serviceWorker.controller) serviceWorker.register("/sw.js").catch(() => undefined);

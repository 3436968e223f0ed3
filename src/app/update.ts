import type { Notice } from "./notebook/notebook.js";

/** Keeps the page for when there is no network, and tells where a newer one is ready. Not where the page is being developed. */
export function updateNotice(tell: (notice: Notice) => void): void {
  if (!("serviceWorker" in navigator) || import.meta.env.DEV) return;
  // Without the network there is nothing newer, and what was kept stays.
  register(tell).catch(() => undefined);
}

async function register(tell: (notice: Notice) => void): Promise<void> {
  const { Workbox } = await import("workbox-window");
  const workbox = new Workbox("service-worker.js", { scope: "./" });
  workbox.addEventListener("waiting", () => {
    tell({
      text: "A newer Rotaline is ready. What you wrote stays as it is.",
      action: { label: "Use it now", run: () => workbox.messageSkipWaiting() },
    });
  });
  workbox.addEventListener("controlling", ({ isUpdate }) => isUpdate && location.reload());
  await workbox.register();
  // The first visit's page was fetched before anybody could keep it: it is kept now, so that the second needs no network.
  await navigator.serviceWorker.ready;
  await (await caches.open("page")).add(location.href.split("#")[0] ?? location.href);
}

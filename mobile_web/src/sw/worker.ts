/// <reference lib="webworker" />
import { planFor } from "./plan";

/** The files of this build and a name that changes with them; the build writes both in front of this program. */
declare const KEPT_FILES: readonly string[];
declare const KEPT_AS: string;

const here = self as unknown as ServiceWorkerGlobalScope;
const kept = new Set(KEPT_FILES);

here.addEventListener("install", (event) => {
  event.waitUntil(caches.open(KEPT_AS).then((cache) => cache.addAll(KEPT_FILES.map(asked))));
});
here.addEventListener("activate", (event) => {
  event.waitUntil(dropOld().then(() => here.clients.claim()));
});
here.addEventListener("message", (event) => {
  if (event.data === "take over") void here.skipWaiting();
});
here.addEventListener("fetch", (event) => {
  const { method, mode, url } = event.request;
  const { origin, pathname } = new URL(url);
  const plan = origin === here.location.origin ? planFor(method, mode, pathname, kept) : "through";
  if (plan === "page unless reached") event.respondWith(fetch(event.request).catch(() => fromKept("/", event.request)));
  else if (plan !== "through") event.respondWith(fromKept(plan === "page" ? "/" : pathname, event.request));
});

/** A file with its hash in its name may come from the browser's own store; the others are asked for anew. */
function asked(path: string): Request {
  return new Request(path, { cache: path.startsWith("/assets/") ? "default" : "reload" });
}

async function fromKept(path: string, request: Request): Promise<Response> {
  const found = await (await caches.open(KEPT_AS)).match(path);
  return found ?? fetch(request);
}

async function dropOld(): Promise<void> {
  const names = await caches.keys();
  await Promise.all(names.filter((name) => name !== KEPT_AS).map((name) => caches.delete(name)));
}

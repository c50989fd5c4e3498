/**
 * Use without a network: the service worker is put in place once the page stands, and a newer version is offered, never
 * forced on a page that is open.
 */

/** Asks for the service worker; where there is none, the page works with a network only. */
export async function keepOffline() {
  if (!("serviceWorker" in navigator)) return;
  const registration = await navigator.serviceWorker.register("service-worker.js").catch(() => null);
  if (!registration) return;
  if (registration.waiting && navigator.serviceWorker.controller) offer(registration);
  registration.addEventListener("updatefound", () => {
    const arriving = registration.installing;
    arriving?.addEventListener("statechange", () => {
      if (arriving.state === "installed" && navigator.serviceWorker.controller) offer(registration);
    });
  });
}

/**
 * The newer version takes over when all pages of the old one are closed; with only this page open, at once.
 * @param {ServiceWorkerRegistration} registration
 */
function offer(registration) {
  if (document.querySelector(".newer")) return;
  const bar = document.createElement("aside");
  bar.className = "bar-over newer";
  bar.setAttribute("aria-label", "Newer version of the page");
  const words = document.createElement("p");
  words.textContent = "A newer version of this page is here. It starts when all its tabs are closed.";
  const button = document.createElement("button");
  button.type = "button";
  button.textContent = "Load it now";
  button.addEventListener("click", () => {
    words.textContent = "Close the other tabs of this page first, if there are any.";
    navigator.serviceWorker.addEventListener("controllerchange", () => location.reload(), { once: true });
    registration.waiting?.postMessage("take over");
  });
  bar.append(words, button);
  document.body.append(bar);
}

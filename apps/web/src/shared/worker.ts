/** Keeps the app itself on the device, where the browser allows it: on HTTPS or localhost. Elsewhere the page works, but needs the network to start. */
export function registerWorker(): void {
  if (!import.meta.env.PROD || !('serviceWorker' in navigator)) return;
  void navigator.serviceWorker
    .register('/sw.js')
    .then((registration) => {
      const offer = (): void => {
        if (registration.waiting && navigator.serviceWorker.controller) listeners.forEach((tell) => tell());
      };
      offer();
      registration.addEventListener('updatefound', () => registration.installing?.addEventListener('statechange', offer));
      waiting = () => registration.waiting ?? undefined;
    })
    .catch(() => undefined); // refused by the browser's settings: the app works on, only not from a cold start without a network
}

let waiting: () => ServiceWorker | undefined = () => undefined;
const listeners = new Set<() => void>();

/** Told when a newer version of the app lies ready. */
export function onNewVersion(listener: () => void): () => void {
  listeners.add(listener);
  return () => listeners.delete(listener);
}

/** Goes over to the newer version; what was typed is in the device's store and stays. */
export function takeNewVersion(): void {
  navigator.serviceWorker.addEventListener('controllerchange', () => location.reload(), { once: true });
  waiting()?.postMessage('take-over');
}

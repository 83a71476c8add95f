/**
 * Keeps the app usable with the network off. Where a newer version has been fetched, `onnewer` is given what takes it
 * up: the page then starts again with it, and the work is there as it was kept.
 */
export async function keepOffline(script: string, onnewer: (takeUp: () => void) => void): Promise<void> {
  const { serviceWorker } = navigator;
  const registration = await serviceWorker.register(script);
  const look = () => {
    const { waiting } = registration;
    if (waiting && serviceWorker.controller) onnewer(() => takeUp(waiting));
  };
  look();
  registration.addEventListener('updatefound', () => {
    registration.installing?.addEventListener('statechange', look);
  });
}

function takeUp(waiting: ServiceWorker): void {
  navigator.serviceWorker.addEventListener('controllerchange', () => location.reload(), { once: true });
  waiting.postMessage('take-over');
}

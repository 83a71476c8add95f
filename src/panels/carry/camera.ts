type Detector = { detect(source: HTMLVideoElement): Promise<readonly { readonly rawValue: string }[]> };
type DetectorMaker = {
  new (options: { formats: readonly string[] }): Detector;
  getSupportedFormats(): Promise<readonly string[]>;
};

const FORMAT = 'qr_code';
const LOOK_EVERY = 250;

const maker = (): DetectorMaker | undefined =>
  (globalThis as { BarcodeDetector?: DetectorMaker }).BarcodeDetector;

/** Why this page cannot read codes by the camera itself; null where it can. */
export async function whyNoCamera(): Promise<string | null> {
  if (!globalThis.isSecureContext)
    return 'A browser lets a page use the camera only over https. Use the camera of the phone itself.';
  const formats = await maker()
    ?.getSupportedFormats()
    .catch((): string[] => []);
  if (!formats?.includes(FORMAT) || !('mediaDevices' in navigator))
    return 'This browser reads no codes itself. Use the camera of the phone itself.';
  return null;
}

/**
 * Shows what the camera sees in a video element and hands over every code that is in it, until the element is gone.
 * `onfault` has the reason where the camera is refused or there is none.
 */
export function readCodes(
  onread: (text: string) => void,
  onfault: (say: string) => void,
): (video: HTMLVideoElement) => () => void {
  return (video) => {
    let over = false;
    let stream: MediaStream | null = null;
    let timer: ReturnType<typeof setTimeout> | undefined;
    const stop = () => stream?.getTracks().forEach((track) => track.stop());
    const Maker = maker();
    if (!Maker) return () => undefined;
    const detector = new Maker({ formats: [FORMAT] });
    const look = async () => {
      const found = await detector.detect(video).catch(() => []);
      if (over) return;
      for (const { rawValue } of found) onread(rawValue);
      timer = setTimeout(() => void look(), LOOK_EVERY);
    };
    const begin = async () => {
      try {
        stream = await navigator.mediaDevices.getUserMedia({ video: { facingMode: 'environment' } });
        if (over) return stop();
        video.srcObject = stream;
        await video.play();
        await look();
      } catch (fault) {
        const denied = fault instanceof DOMException && fault.name === 'NotAllowedError';
        if (!over)
          onfault(denied ? 'The camera was not allowed to this page.' : 'There is no camera to be had.');
      }
    };
    void begin();
    return () => {
      over = true;
      clearTimeout(timer);
      stop();
    };
  };
}

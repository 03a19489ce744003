/** Reads barcodes from a photo or a running camera, on the phone, with a reader of our own files. */
import wasmUrl from "zxing-wasm/reader/zxing_reader.wasm?url";
import { prepareZXingModule, readBarcodes, type ReaderOptions } from "zxing-wasm/reader";

const OPTIONS: ReaderOptions = {
  formats: ["Code128", "DataMatrix", "QRCode", "DataBar", "DataBarExpanded", "EAN13", "ITF"],
  tryHarder: true,
  maxNumberOfSymbols: 1,
};

// The library would fetch its engine from a public address otherwise, and there is no signal at the dock.
prepareZXingModule({ overrides: { locateFile: () => wasmUrl } });

/** The text of the first barcode, with its symbology identifier in front; null when none is seen. */
export async function scanText(picture: Blob | ImageData): Promise<string | null> {
  const [first] = await readBarcodes(picture, OPTIONS);
  return first?.isValid ? `${first.symbologyIdentifier ?? ""}${first.text}` : null;
}

/** Look through the camera until a barcode is seen or `signal` ends it. Throws when there is no camera. */
export async function scanByCamera(video: HTMLVideoElement, signal: AbortSignal): Promise<string | null> {
  const stream = await navigator.mediaDevices.getUserMedia({ video: { facingMode: "environment" }, audio: false });
  const stop = () => stream.getTracks().forEach((track) => track.stop());
  signal.addEventListener("abort", stop);
  video.srcObject = stream;
  try {
    await video.play();
    while (!signal.aborted) {
      const text = await scanText(frameOf(video));
      if (text) return text;
      await new Promise((next) => setTimeout(next, 120));
    }
    return null;
  } finally {
    stop();
  }
}

function frameOf(video: HTMLVideoElement): ImageData {
  const canvas = document.createElement("canvas");
  canvas.width = video.videoWidth;
  canvas.height = video.videoHeight;
  const context = canvas.getContext("2d", { willReadFrequently: true })!;
  context.drawImage(video, 0, 0);
  return context.getImageData(0, 0, canvas.width, canvas.height);
}

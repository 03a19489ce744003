/** The phone's own camera seen on the page, so that an outline can lie over it; a shot is a file like any other. */

/** Show the camera at its best still size until `signal` ends it. Throws where there is no camera. */
export async function openCamera(video: HTMLVideoElement, signal: AbortSignal): Promise<void> {
  const wanted = { facingMode: "environment", width: { ideal: 4096 }, height: { ideal: 3072 } };
  const stream = await navigator.mediaDevices.getUserMedia({ video: wanted, audio: false });
  const stop = () => stream.getTracks().forEach((track) => track.stop());
  if (signal.aborted) return stop();
  signal.addEventListener("abort", stop);
  video.srcObject = stream;
  await video.play();
}

/** What the camera sees now, as JPEG. Throws where the browser gives no picture. */
export async function shotOf(video: HTMLVideoElement): Promise<Blob> {
  const canvas = document.createElement("canvas");
  canvas.width = video.videoWidth;
  canvas.height = video.videoHeight;
  canvas.getContext("2d")!.drawImage(video, 0, 0);
  const blob = await new Promise<Blob | null>((done) => canvas.toBlob(done, "image/jpeg", 0.92));
  if (!blob) throw new Error("no picture");
  return blob;
}

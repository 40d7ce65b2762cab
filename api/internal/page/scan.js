// A label before the camera, or its id typed: the camera is on only while this is open.
import { h } from "./dom.js";
import { idIn } from "./round.js";
import { words } from "./words.js";

const text = words.weigh;
const look = 200; // ms between two looks at the picture
const widest = 800; // px: a label before a hand is large in the picture

export class Scanner {
  /** box is where it stands; found(id) returns what is wrong with an id, or nothing and goes on. */
  constructor(box, found) {
    Object.assign(this, { box, found });
  }

  async start() {
    const input = h("input", { id: "scan-id", autocomplete: "off", autocapitalize: "none", spellcheck: "false" });
    this.said = h("p", { class: "help", role: "status" });
    this.video = h("video", { playsinline: true, muted: true, hidden: true });
    const form = h(
      "form",
      { class: "sheet", novalidate: true },
      this.video,
      this.said,
      h("div", { class: "f" }, h("label", { for: "scan-id" }, text.scanType), h("div", { class: "box" }, input)),
      h(
        "div",
        { class: "btns" },
        h("button", { class: "btn" }, text.scanGo),
        h("button", { type: "button", class: "btn line", onclick: () => this.stop() }, text.scanClose),
      ),
    );
    form.addEventListener("submit", (event) => {
      event.preventDefault();
      this.tell(input.value);
    });
    this.box.replaceChildren(form);
    input.focus();
    await this.watch();
  }

  tell(read) {
    const wrong = this.found(idIn(read));
    if (wrong) this.said.textContent = wrong;
    else this.stop();
    return !wrong;
  }

  async watch() {
    if (!navigator.mediaDevices) {
      this.said.textContent = text.scanNone; // an address that is not encrypted has no camera
      return;
    }
    try {
      this.stream = await navigator.mediaDevices.getUserMedia({ video: { facingMode: "environment" } });
    } catch {
      this.said.textContent = text.scanDenied;
      return;
    }
    if (this.stopped) return this.stop();
    this.video.hidden = false;
    this.video.srcObject = this.stream;
    await this.video.play();
    this.said.textContent = text.scanHelp;
    const read = await reader();
    while (!this.stopped) {
      const code = await read(this.video).catch(() => undefined);
      if (code && !this.stopped && this.tell(code)) return undefined;
      await new Promise((done) => setTimeout(done, look));
    }
    return undefined;
  }

  stop() {
    this.stopped = true;
    for (const track of this.stream?.getTracks() || []) track.stop();
    this.box.replaceChildren();
  }
}

// What reads a code: the browser itself where it can, else the page's own reader.
async function reader() {
  const formats = await globalThis.BarcodeDetector?.getSupportedFormats().catch(() => []);
  if (formats?.includes("qr_code")) {
    const detector = new globalThis.BarcodeDetector({ formats: ["qr_code"] });
    return async (video) => (await detector.detect(video))[0]?.rawValue;
  }
  const { readQR } = await import("./qr.js");
  const canvas = h("canvas"),
    pen = canvas.getContext("2d", { willReadFrequently: true });
  return async (video) => {
    if (video.videoWidth === 0) return undefined;
    const scale = Math.min(1, widest / Math.max(video.videoWidth, video.videoHeight));
    canvas.width = Math.round(video.videoWidth * scale);
    canvas.height = Math.round(video.videoHeight * scale);
    pen.drawImage(video, 0, 0, canvas.width, canvas.height);
    return readQR(pen.getImageData(0, 0, canvas.width, canvas.height));
  };
}

// The camera of the phone: a label of the rack is held before it, as a film that Chromium plays in
// place of a camera, and the page reads its code; a billet is photographed. check.mjs runs it.
import assert from "node:assert/strict";
import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";

// How a label comes before the lens: [turned by degrees, slanted by, as large as, blurred by px].
const views = [
  [0, 0, 1, 0],
  [25, 0.1, 0.8, 1],
  [-100, 0.15, 0.9, 0.5],
  [180, -0.2, 1.1, 1],
];

const hold = ([turn, slant, scale, blur]) => {
  const style = document.querySelector(".label").style;
  style.transform = `scale(${1.6 * scale}) skew(${slant}rad) rotate(${turn}deg)`;
  style.filter = `blur(${blur}px)`;
};

// A film of labels on a bench, as a camera of 640 by 480 sees them; first the bench alone.
async function film(browser, label, file) {
  const page = await browser.newPage({ viewport: { width: 640, height: 480 } });
  await page.setContent(
    `<style>body{margin:0;height:480px;display:grid;place-items:center;overflow:hidden;
     background:repeating-linear-gradient(95deg,#b98d55 0 9px,#a87c46 9px 14px)}
     .label{background:#f6f2ea;padding:12px;display:flex;gap:10px;align-items:center;font:20px sans-serif}
     .label svg{width:120px;height:120px;background:#fff}</style><div class="label" hidden>${label}</div>`,
  );
  const shot = () => page.screenshot({ type: "jpeg", quality: 80 });
  const frames = [await shot()];
  await page.locator(".label").evaluate((l) => l.removeAttribute("hidden"));
  for (const view of views) {
    await page.evaluate(hold, view);
    frames.push(...Array(15).fill(await shot())); // half a second each
  }
  writeFileSync(file, Buffer.concat(frames));
  const alone = await Promise.all(frames.filter((f, i) => i % 15 === 1).map((f) => f.toString("base64")));
  await page.close();
  return alone;
}

export async function cameraStory({ service, browser, launch, open, step, shot, noneBroken, quiet, phone }) {
  const folder = mkdtempSync(join(tmpdir(), "film-"));
  const before = { width: 390, height: 844 };
  const text = await (await fetch(`${service}/v1/rack/labels?as=html`)).text();
  const label = text.split('<div class="label">').find((l) => /<strong>w-5</.test(l));
  let frames;
  try {
    await step("camera: a label is read from every side, slanted and not quite sharp", async () => {
      assert.ok(label, "there is a label of w-5");
      frames = await film(browser, label.split("</svg>")[0] + "</svg> w-5", join(folder, "label.mjpeg"));
      assert.equal(frames.length, views.length);
      const { page, faults, close } = await open(before, phone, service, "#/rack");
      const read = await page.evaluate(async (all) => {
        const { readQR } = await import("/page/qr.js");
        const said = [];
        for (const one of all) {
          const bytes = Uint8Array.from(atob(one), (c) => c.charCodeAt(0));
          const image = await createImageBitmap(new Blob([bytes], { type: "image/jpeg" }));
          const pen = new OffscreenCanvas(image.width, image.height).getContext("2d");
          pen.drawImage(image, 0, 0);
          said.push(readQR(pen.getImageData(0, 0, image.width, image.height)));
        }
        return said;
      }, frames);
      for (const [i, said] of read.entries()) assert.match(said || "", /\/B\/W-5$/, `view ${views[i]}`);
      assert.deepEqual(quiet(faults), []);
      await close();
    });

    await step("camera: a label before it leads to its billet, and the camera goes off", async () => {
      const filmed = await launch([
        "--use-fake-ui-for-media-stream",
        "--use-fake-device-for-media-stream",
        `--use-file-for-fake-video-capture=${join(folder, "label.mjpeg")}`,
      ]);
      try {
        const { page, faults, close } = await open(before, phone, service, "#/weigh", filmed);
        await page.locator("#kg").waitFor();
        await page.evaluate(() => {
          const media = navigator.mediaDevices,
            ask = media.getUserMedia.bind(media);
          media.getUserMedia = async (...asked) => (globalThis.stream = await ask(...asked));
        });
        await page.locator("#scan").click();
        await page.waitForFunction(() => document.querySelector(".wcard .id")?.textContent === "w-5");
        assert.deepEqual(
          await page.evaluate(() => globalThis.stream.getTracks().map((t) => t.readyState)),
          ["ended"],
          "the camera is off",
        );
        assert.equal(await page.locator("video").count(), 0);
        await noneBroken(page, "after a scan");
        await shot(page, "scanned");
        assert.deepEqual(quiet(faults), []);
        await close();
      } finally {
        await filmed.close();
      }
    });

    await step("camera: a billet is photographed, small enough to keep, and shown", async () => {
      const large = await browser.newPage({ viewport: { width: 2400, height: 1800 } });
      await large.setContent(`<body style="background:linear-gradient(#b98d55,#744)">`);
      const buffer = await large.screenshot({ type: "jpeg" });
      await large.close();
      const { page, faults, close } = await open(before, phone, service, "#/rack/billets/w-5");
      for (const name of ["first.jpg", "second.jpg"]) {
        const [put] = await Promise.all([
          page.waitForResponse((r) => r.url().endsWith("/w-5/photo") && r.request().method() === "PUT"),
          page.locator("#photo").setInputFiles({ name, mimeType: "image/jpeg", buffer }),
        ]);
        assert.ok(put.ok(), `${name}: ${put.status()}`);
        await page.getByText("Kept.").waitFor();
        await page.locator("img.photo").waitFor();
      }
      const size = await page.locator("img.photo").evaluate(async (i) => {
        await i.decode();
        return [i.naturalWidth, i.naturalHeight];
      });
      assert.deepEqual(size, [1600, 1200]);
      await noneBroken(page, "a billet with its photograph");
      await shot(page, "photographed");
      assert.deepEqual(quiet(faults), []);
      await close();
    });
  } finally {
    rmSync(folder, { recursive: true });
  }
}

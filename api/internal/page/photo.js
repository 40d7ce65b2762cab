// A photograph of a billet: taken by the camera of a phone, made small enough here, kept by the rack.
import { h } from "./dom.js";
import { Refused } from "./rackask.js";
import { send } from "./send.js";
import { words, fill } from "./words.js";

const text = words.billet;
const widest = 1600; // px: more shows no more of a billet

/** photoBox shows the photograph of a billet and takes another. */
export function photoBox(page, photo) {
  const path = `${page.path}/photo`;
  const input = h("input", { id: "photo", type: "file", accept: "image/*", capture: "environment", class: "hid" });
  const shown = h("div", {});
  const box = h(
    "section",
    { class: "sheet" },
    shown,
    h("div", { class: "btns" }, h("label", { class: "btn line", for: "photo" }, text.photo), input),
  );
  if (photo) show(path, shown, fill(text.photoOf, { id: page.wood.id }));
  input.addEventListener("change", () => {
    const [file] = input.files;
    if (!file) return;
    page.doing(async () => {
      const reply = await send(path, {
        method: "PUT",
        headers: { "Content-Type": "image/jpeg", ...(photo ? { "If-Match": "*" } : { "If-None-Match": "*" }) },
        body: await smaller(file),
      });
      if (!reply.ok) throw new Refused(reply.status, await reply.json().catch(() => undefined));
      return text.kept;
    });
  });
  return box;
}

// A picture cannot carry a token in its address: it is fetched.
async function show(path, node, alt) {
  const reply = await send(path);
  if (!reply.ok) return;
  node.replaceChildren(h("img", { class: "photo", src: URL.createObjectURL(await reply.blob()), alt }));
}

async function smaller(file) {
  const image = await createImageBitmap(file),
    scale = Math.min(1, widest / Math.max(image.width, image.height));
  const canvas = h("canvas", { width: Math.round(image.width * scale), height: Math.round(image.height * scale) });
  canvas.getContext("2d").drawImage(image, 0, 0, canvas.width, canvas.height);
  return new Promise((done) => canvas.toBlob(done, "image/jpeg", 0.85));
}

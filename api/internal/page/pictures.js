// Small drawings: marks, the groups of questions, and what words fail at. All our own.
import { svg } from "./dom.js";
import { words } from "./words.js";

const named = words.pictures;

const ln = (d, more) => ["path", { class: "ln", d, ...more }];
const wd = (d) => ["path", { class: "wd", d }];

export const mark = {
  logo: () =>
    svg("0 0 32 32", [
      wd("M3 25C3 12 12 4 29 4v21z"),
      ln("M9 25c0-9 7-15 20-15M15 25c0-6 5-9.5 14-9.5M21 25c0-3 3-5 8-5"),
    ]),
  ask: () => svg("0 0 24 24", [ln("M4 5h16v11H11l-4 4v-4H4z"), ln("M8 9h8M8 12.5h5")]),
  rack: () => svg("0 0 24 24", [ln("M3 6h18M3 12h18M3 18h18M6 3v18M18 3v18")]),
  weigh: () => svg("0 0 24 24", [ln("M5 20h14l-2-11H7zM9 9a3 3 0 1 1 6 0"), ln("M12 15l2.2-3")]),
  kept: () => svg("0 0 24 24", [ln("M6 3h12v18l-6-4.5L6 21z")]),
  shop: () => svg("0 0 24 24", [ln("M4 20V9l8-5 8 5v11zM10 20v-6h4v6")]),
  ready: () =>
    svg("0 0 24 24", [
      ["circle", { cx: 12, cy: 12, r: 10.5, fill: "currentColor" }],
      ["path", { d: "M6.8 12.4l3.6 3.7 6.8-7.6", fill: "none", class: "cut" }],
    ]),
  not_ready: () =>
    svg("0 0 24 24", [
      ["circle", { cx: 12, cy: 12, r: 9.6, fill: "none", stroke: "currentColor", "stroke-width": 2.4 }],
      ["path", { d: "M7 12h10", stroke: "currentColor", "stroke-width": 2.6 }],
    ]),
  cannot_say: () =>
    svg("0 0 24 24", [
      [
        "circle",
        {
          cx: 12,
          cy: 12,
          r: 9.6,
          fill: "none",
          stroke: "currentColor",
          "stroke-width": 2.4,
          "stroke-dasharray": "4.5 3",
        },
      ],
      [
        "path",
        {
          d: "M9 9.6a3 3 0 1 1 4.4 2.7c-1 .6-1.4 1.1-1.4 2.2",
          fill: "none",
          stroke: "currentColor",
          "stroke-width": 2.2,
        },
      ],
      ["circle", { cx: 12, cy: 17.3, r: 1.4, fill: "currentColor" }],
    ]),
  look: () =>
    svg("0 0 24 24", [
      ["path", { d: "M12 1.8 22.4 12 12 22.2 1.6 12z", fill: "none", stroke: "currentColor", "stroke-width": 2.3 }],
      ["path", { d: "M12 7v6", stroke: "currentColor", "stroke-width": 2.6 }],
      ["circle", { cx: 12, cy: 16.3, r: 1.5, fill: "currentColor" }],
    ]),
};

/** groupPicture draws where in the shop a group of questions belongs. */
export const groupPicture = {
  stack: () =>
    svg("0 0 112 78", [
      wd("M8 60h96v12H8zM8 38h96v12H8zM8 16h96v12H8z"),
      ln("M22 50v10h8V50M82 50v10h8V50M22 28v10h8V28M82 28v10h8V28"),
    ]),
  saw: () =>
    svg("0 0 112 78", [
      wd("M10 30 76 14l26 12v26L36 70 10 56z"),
      ln("M10 30l26 13 66-17M36 43v27M14 36l26 13 62-16M18 42l22 12 62-16"),
    ]),
  joint: () =>
    svg("0 0 112 78", [
      wd("M54 8 12 12v56h42zM58 8l42 4v56H58z"),
      ln("M54 20c-12 4-18 22-28 48M54 38c-7 4-10 18-14 30M58 20c12 4 18 22 28 48M58 38c7 4 10 18 14 30"),
    ]),
  glued: () =>
    svg("0 0 112 78", [wd("M8 14h96v50H8z"), ln("M24 28h64v22H24zM40 39H28m4-4-4 4 4 4M72 39h12m-4-4 4 4-4 4")]),
  air: () =>
    svg("0 0 112 78", [
      ["circle", { class: "wd", cx: 56, cy: 39, r: 31 }],
      ln("M56 39 74 24M32 52a27 27 0 0 1 48 0M56 14v5M34 26l4 3M78 26l-4 3"),
    ]),
  other: () => svg("0 0 112 78", [wd("M20 14h72v50H20z"), ln("M34 30h44M34 40h44M34 50h28")]),
};

// The end of a board whose rings stand at an angle to its wide face.
function end(angle) {
  const lines =
    angle < 5 ? ["M5 41Q50 -16 95 41", "M14 43Q50 2 86 43", "M26 43Q50 16 74 43", "M38 43Q50 29 62 43"] : [];
  if (lines.length === 0) {
    const run = 34 / Math.tan((angle * Math.PI) / 180);
    for (let x = 4 - Math.max(0, run); x < 100; x += 9) {
      const a = clip(x, 44, x + run, 10);
      if (a) lines.push(a);
    }
  }
  return svg("0 0 100 54", [wd("M4 10h92v34H4z"), ln(lines.join(""), { class: "ln ring" })]);
}

// A line of the end, cut off at its sides.
function clip(x1, y1, x2, y2) {
  const at = (x) => y1 + ((x - x1) / (x2 - x1)) * (y2 - y1);
  let [a, b, c, d] = [x1, y1, x2, y2];
  if (c < 4 || a > 96) return "";
  if (a < 4) [a, b] = [4, at(4)];
  if (c > 96) [c, d] = [96, at(96)];
  return `M${a.toFixed(1)} ${b.toFixed(1)}L${c.toFixed(1)} ${d.toFixed(1)}`;
}

/** ringEnds are the pictures from which a ring angle is picked: what it is called, and its degrees. */
export const ringEnds = [
  ["flat", 0],
  ["between", 45],
  ["slanted", 70],
  ["quarter", 90],
].map(([name, angle]) => ({ name, angle, draw: () => end(angle) }));

const arrow = (d) => ln(d, { class: "ln act" });

/** helps are drawings beside members, by the last name of their path. */
export const helps = {
  pith: () =>
    svg("0 0 160 90", [
      wd("M20 34h90v30H20z"),
      ln("M20 42c20-12 60-14 90 6M20 54c20-10 60-12 90 8"),
      ["circle", { cx: 62, cy: 80, r: 3.5, class: "dot" }],
      arrow("M20 72h42M20 69v6M124 34v46M121 34h6M121 80h6"),
      ["text", { x: 38, y: 86, class: "t" }, "y"],
      ["text", { x: 130, y: 62, class: "t" }, "z"],
      ["text", { x: 22, y: 28, class: "t" }, named.face],
    ]),
  chord: () =>
    svg("0 0 160 80", [
      wd("M15 18h130v50H15z"),
      ln("M28 60C50 26 110 26 132 60"),
      arrow("M28 60h104M80 60V35"),
      ["text", { x: 86, y: 52, class: "t" }, named.height],
    ]),
  runout_one_in: () =>
    svg("0 0 160 60", [
      wd("M10 15h140v34H10z"),
      ln("M10 42l140-14M10 52"),
      arrow("M14 42h136M150 28v14"),
      ["text", { x: 60, y: 58, class: "t" }, named.slope],
    ]),
  dip_one_in: () =>
    svg("0 0 160 70", [
      wd("M10 24 40 8h110l-30 16zM10 24h110v36H10z"),
      ln("M10 34c40 4 80 12 110 16"),
      arrow("M10 34h110M120 34v16"),
    ]),
  cup: () =>
    svg("0 0 160 60", [
      wd("M12 40Q80 12 148 40l0 12Q80 26 12 52z"),
      arrow("M12 52h136M80 52V34"),
      ["text", { x: 86, y: 49, class: "t" }, named.cup],
    ]),
  bow: () =>
    svg("0 0 160 60", [
      wd("M8 42Q80 18 152 42v8Q80 28 8 50z"),
      arrow("M8 50h144M80 50V35"),
      ["text", { x: 86, y: 47, class: "t" }, named.bow],
    ]),
  twist: () =>
    svg("0 0 160 70", [
      wd("M14 44 56 18l92-4-40 36z"),
      arrow("M14 44h94M148 14v30M108 50"),
      ["text", { x: 112, y: 62, class: "t" }, named.twist],
    ]),
  lean: () =>
    svg("0 0 160 60", [
      wd("M15 14h130v34H15z"),
      ln("M60 14l20 34M80 14l20 34M100 14l20 34"),
      ["text", { x: 18, y: 11, class: "t" }, named.near],
      ["text", { x: 126, y: 11, class: "t" }, named.far],
    ]),
  arch_height: () => svg("0 0 160 60", [wd("M10 48Q80 4 150 48z"), arrow("M80 26v22M10 48h140")]),
  size_ring_angle_deg: () =>
    svg("0 0 160 70", [
      wd("M15 12h130v40H15z"),
      ln("M30 52l30-40M55 52l30-40M80 52l30-40M105 52l30-40"),
      arrow("M15 62h130M55 52h22M66 52a12 12 0 0 0-4-9"),
      ["text", { x: 62, y: 69, class: "t" }, named.size],
    ]),
};

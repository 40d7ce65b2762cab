// Reads a QR code (ISO/IEC 18004, versions 1 to 10: labels need no more) from a picture, for the
// many browsers that cannot by themselves: finds its three corners, takes out the slant, corrects
// what dust and a shaking hand spoiled. No page here.
const mostVersion = 10;

/** readQR returns the text of a code in a picture {data, width, height} of four bytes a point, or undefined. */
export function readQR(picture) {
  const dark = darkOf(picture);
  for (const corners of cornersOf(findersOf(dark), dark)) {
    for (const size of sizesOf(corners)) {
      const grid = gridOf(dark, corners, size);
      const text = grid && textOf(grid);
      if (text) return text;
    }
  }
  return undefined;
}

// Dark is what is darker than the mean around it: a shadow across a label does no harm.
function darkOf({ data, width, height }) {
  const grey = new Uint8Array(width * height),
    sums = new Float64Array((width + 1) * (height + 1));
  for (let y = 0; y < height; y++) {
    let row = 0;
    for (let x = 0; x < width; x++) {
      const i = (y * width + x) * 4;
      row += grey[y * width + x] = (data[i] * 2 + data[i + 1] * 5 + data[i + 2]) >> 3;
      sums[(y + 1) * (width + 1) + x + 1] = sums[y * (width + 1) + x + 1] + row;
    }
  }
  const reach = Math.max(8, Math.round(Math.min(width, height) / 12)),
    is = new Uint8Array(width * height);
  const sum = (x, y) => sums[y * (width + 1) + x];
  for (let y = 0; y < height; y++) {
    const [y0, y1] = [Math.max(0, y - reach), Math.min(height, y + reach + 1)];
    for (let x = 0; x < width; x++) {
      const [x0, x1] = [Math.max(0, x - reach), Math.min(width, x + reach + 1)];
      const mean = (sum(x1, y1) - sum(x0, y1) - sum(x1, y0) + sum(x0, y0)) / ((x1 - x0) * (y1 - y0));
      is[y * width + x] = grey[y * width + x] < mean * 0.92 ? 1 : 0;
    }
  }
  const at = (x, y) => x >= 0 && y >= 0 && x < width && y < height && is[Math.floor(y) * width + Math.floor(x)] === 1;
  return { is, width, height, at };
}

// Five runs as those through a corner: 1 to 1 to 3 to 1 to 1.
function unitOf(runs) {
  const unit = runs.reduce((a, b) => a + b) / 7,
    off = unit * 0.75;
  const fits = [1, 1, 3, 1, 1].every((want, i) => Math.abs(runs[i] - want * unit) < off * (want === 3 ? 2 : 1));
  return fits && unit >= 1 ? unit : 0;
}

// The runs across a point in one direction: {unit, middle} where they are those of a corner.
function across(dark, x, y, dx, dy) {
  const runs = [0, 0, 0, 0, 0],
    most = Math.max(dark.width, dark.height);
  let behind = 0;
  for (const way of [-1, 1]) {
    let i = way < 0 ? 0 : 1;
    for (const [at, want] of way < 0 ? [[2, true], [1, false], [0, true]] : [[2, true], [3, false], [4, true]]) {
      while (i < most && dark.at(x + way * i * dx, y + way * i * dy) === want) {
        runs[at]++;
        i++;
      }
    }
    if (way < 0) behind = runs[2];
  }
  const unit = unitOf(runs),
    shift = (runs[2] - 1) / 2 - (behind - 1);
  return unit ? { unit, x: x + shift * dx, y: y + shift * dy } : undefined;
}

/** findersOf finds what looks like a corner: {x, y, unit, seen}. */
function findersOf(dark) {
  const { width, height, is } = dark,
    found = [];
  for (let y = 0; y < height; y++) {
    const runs = [0, 0, 0, 0, 0];
    let now = 0;
    for (let x = 0; x <= width; x++) {
      const value = x < width ? is[y * width + x] : 2;
      if (value === now && x < width) {
        runs[4]++;
        continue;
      }
      if (now === 1 && unitOf(runs)) meet(found, dark, x - runs[4] - runs[3] - runs[2] / 2, y);
      runs.shift();
      runs.push(1);
      now = value;
    }
  }
  return found.sort((a, b) => b.seen - a.seen).slice(0, 8);
}

function meet(found, dark, x, y) {
  const up = across(dark, Math.floor(x), y, 0, 1);
  const side = up && across(dark, Math.floor(x), Math.round(up.y), 1, 0);
  if (!side || side.unit > up.unit * 2 || up.unit > side.unit * 2) return;
  const here = { x: side.x + 0.5, y: up.y + 0.5, unit: (up.unit + side.unit) / 2, seen: 1 };
  const near = found.find((f) => Math.hypot(f.x - here.x, f.y - here.y) < f.unit * 2);
  if (!near) {
    found.push(here);
    return;
  }
  for (const name of ["x", "y", "unit"]) near[name] += (here[name] - near[name]) / (near.seen + 1);
  near.seen++;
}

const far = (a, b) => Math.hypot(a.x - b.x, a.y - b.y);

/** cornersOf puts three of what was found in order: {top, right, below}, the likely first. */
function cornersOf(found) {
  const all = [];
  for (let i = 0; i < found.length; i++)
    for (let j = i + 1; j < found.length; j++)
      for (let k = j + 1; k < found.length; k++) {
        const three = [found[i], found[j], found[k]];
        const [top, a, b] = three
          .map((p) => [p, ...three.filter((q) => q !== p)])
          .sort((p, q) => far(q[1], q[2]) - far(p[1], p[2]))[0];
        const turned = (a.x - top.x) * (b.y - top.y) - (a.y - top.y) * (b.x - top.x);
        const [right, below] = turned > 0 ? [a, b] : [b, a];
        const legs = [far(top, right), far(top, below)],
          units = three.map((p) => p.unit);
        if (Math.max(...legs) > 2 * Math.min(...legs) || Math.max(...units) > 2 * Math.min(...units)) continue;
        const square = Math.abs(Math.hypot(...legs) / far(right, below) - 1);
        all.push({ top, right, below, odd: square + Math.abs(legs[0] / legs[1] - 1) });
      }
  return all.sort((a, b) => a.odd - b.odd).slice(0, 6);
}

// How many modules its side may have: as counted between the corners, and the two next to that.
function sizesOf({ top, right, below }) {
  const unit = (top.unit + right.unit + below.unit) / 3;
  const counted = (far(top, right) + far(top, below)) / 2 / unit + 7;
  const version = Math.round((counted - 17) / 4);
  return [version, version + 1, version - 1].filter((v) => v >= 1 && v <= mostVersion).map((v) => v * 4 + 17);
}

// The map from modules to points of the picture through four places: a projection.
function mapThrough(from, to) {
  const rows = from.flatMap(([u, v], i) => [
    [u, v, 1, 0, 0, 0, -u * to[i][0], -v * to[i][0], to[i][0]],
    [0, 0, 0, u, v, 1, -u * to[i][1], -v * to[i][1], to[i][1]],
  ]);
  for (let i = 0; i < 8; i++) {
    const best = rows.slice(i).reduce((m, r, k) => (Math.abs(r[i]) > Math.abs(rows[m][i]) ? i + k : m), i);
    [rows[i], rows[best]] = [rows[best], rows[i]];
    if (Math.abs(rows[i][i]) < 1e-9) return undefined;
    for (let r = 0; r < 8; r++) {
      if (r === i) continue;
      const by = rows[r][i] / rows[i][i];
      for (let c = i; c < 9; c++) rows[r][c] -= by * rows[i][c];
    }
  }
  const [a, b, c, d, e, f, g, h] = rows.map((r, i) => r[8] / r[i]);
  return (u, v) => {
    const w = g * u + h * v + 1;
    return [(a * u + b * v + c) / w, (d * u + e * v + f) / w];
  };
}

function gridOf(dark, { top, right, below }, size) {
  const at = ({ x, y }) => [x, y];
  const places = [[3.5, 3.5], [size - 3.5, 3.5], [3.5, size - 3.5]];
  const fourth = [right.x + below.x - top.x, right.y + below.y - top.y];
  let map = mapThrough([...places, [size - 3.5, size - 3.5]], [at(top), at(right), at(below), fourth]);
  if (!map) return undefined;
  if (size > 21) {
    const place = [size - 6.5, size - 6.5];
    map = mapThrough([...places, place], [at(top), at(right), at(below), alignment(dark, map, place)]) || map;
  }
  return Array.from({ length: size }, (_, v) =>
    Array.from({ length: size }, (_, u) => (dark.at(...map(u + 0.5, v + 0.5)) ? 1 : 0)),
  );
}

// The small square near the fourth corner, where the wood or the hand slants the label.
function alignment(dark, map, [u, v]) {
  const reach = 4,
    step = 0.25;
  let best = map(u, v),
    most = -1;
  for (let du = -reach; du <= reach; du += step)
    for (let dv = -reach; dv <= reach; dv += step) {
      let fits = -(Math.abs(du) + Math.abs(dv)) / 10;
      for (let i = -2; i <= 2; i++)
        for (let j = -2; j <= 2; j++) {
          const want = Math.max(Math.abs(i), Math.abs(j)) !== 1;
          if (dark.at(...map(u + du + i, v + dv + j)) === want) fits++;
        }
      if (fits > most) [best, most] = [map(u + du, v + dv), fits];
    }
  return best;
}

// From here on the code itself: format, mask, blocks, corrections, text.
const levels = [1, 0, 3, 2]; // L, M, Q, H as the format has them
const perBlock = [
  [7, 10, 15, 20, 26, 18, 20, 24, 30, 18],
  [10, 16, 26, 18, 24, 16, 18, 22, 22, 26],
  [13, 22, 18, 26, 18, 24, 18, 22, 20, 24],
  [17, 28, 22, 16, 22, 28, 26, 26, 24, 28],
];
const blocksOf = [
  [1, 1, 1, 1, 1, 2, 2, 2, 2, 4],
  [1, 1, 1, 2, 2, 4, 4, 4, 5, 5],
  [1, 1, 2, 2, 4, 4, 6, 6, 8, 8],
  [1, 1, 2, 4, 4, 4, 5, 6, 8, 8],
];
const masks = [
  (x, y) => (x + y) % 2 === 0,
  (x, y) => y % 2 === 0,
  (x) => x % 3 === 0,
  (x, y) => (x + y) % 3 === 0,
  (x, y) => (Math.floor(x / 3) + Math.floor(y / 2)) % 2 === 0,
  (x, y) => ((x * y) % 2) + ((x * y) % 3) === 0,
  (x, y) => (((x * y) % 2) + ((x * y) % 3)) % 2 === 0,
  (x, y) => (((x + y) % 2) + ((x * y) % 3)) % 2 === 0,
];

function formatWord(data) {
  let rest = data;
  for (let i = 0; i < 10; i++) rest = (rest << 1) ^ ((rest >> 9) * 0x537);
  return ((data << 10) | rest) ^ 0x5412;
}

const bitsIn = (n) => n.toString(2).replaceAll("0", "").length;

// The level and the mask, from whichever of its two places is read better; at most three bits may be wrong.
function formatOf(grid) {
  const size = grid.length,
    places = [[], []];
  for (let i = 0; i < 15; i++) {
    places[0].push(i < 6 ? [8, i] : i < 8 ? [8, i + 1] : i === 8 ? [7, 8] : [14 - i, 8]);
    places[1].push(i < 8 ? [size - 1 - i, 8] : [8, size - 15 + i]);
  }
  let best,
    least = 4;
  for (const place of places) {
    const read = place.reduce((n, [x, y], i) => n | (grid[y][x] << i), 0);
    for (let data = 0; data < 32; data++) {
      const wrong = bitsIn(read ^ formatWord(data));
      if (wrong < least) [best, least] = [{ level: levels.indexOf(data >> 3), mask: masks[data & 7] }, wrong];
    }
  }
  return best;
}

// Where small squares stand along one side.
function alignmentsOf(version, size) {
  if (version === 1) return [];
  const count = Math.floor(version / 7) + 2,
    step = Math.ceil((size - 13) / (count * 2 - 2)) * 2;
  return [6, ...Array.from({ length: count - 1 }, (_, i) => size - 7 - i * step).reverse()];
}

// What of the square holds no data.
function reservedIn(version, size) {
  const places = alignmentsOf(version, size),
    ends = [6, size - 7];
  const small = (x, y) =>
    places.some((px) =>
      places.some(
        (py) =>
          Math.abs(px - x) <= 2 &&
          Math.abs(py - y) <= 2 &&
          !(ends.includes(px) && ends.includes(py) && !(px === size - 7 && py === size - 7)),
      ),
    );
  return (x, y) =>
    x === 6 ||
    y === 6 ||
    (x < 9 && (y < 9 || y >= size - 8)) ||
    (x >= size - 8 && y < 9) ||
    (version >= 7 && ((x >= size - 11 && y < 6) || (y >= size - 11 && x < 6))) ||
    small(x, y);
}

function codewordsOf(grid, version, mask) {
  const size = grid.length,
    reserved = reservedIn(version, size),
    words = [];
  let word = 0,
    bits = 0;
  for (let right = size - 1; right >= 1; right -= 2) {
    if (right === 6) right = 5;
    for (let i = 0; i < size; i++)
      for (const x of [right, right - 1]) {
        const y = ((right + 1) & 2) === 0 ? size - 1 - i : i;
        if (reserved(x, y)) continue;
        word = (word << 1) | (grid[y][x] ^ (mask(x, y) ? 1 : 0));
        if (++bits % 8 === 0) {
          words.push(word & 255);
          word = 0;
        }
      }
  }
  return words;
}

// The data of all blocks, corrected; undefined where more is spoiled than can be.
function dataOf(words, version, level) {
  const extra = perBlock[level][version - 1],
    count = blocksOf[level][version - 1],
    short = Math.floor(words.length / count),
    shorts = count - (words.length % count);
  const lengths = Array.from({ length: count }, (_, i) => short - extra + (i < shorts ? 0 : 1));
  const blocks = lengths.map(() => []);
  let at = 0;
  for (let i = 0; i < Math.max(...lengths); i++)
    for (let b = 0; b < count; b++) if (i < lengths[b]) blocks[b].push(words[at++]);
  for (let i = 0; i < extra; i++) for (let b = 0; b < count; b++) blocks[b].push(words[at++]);
  const data = [];
  for (const [b, block] of blocks.entries()) {
    if (!correct(block, extra)) return undefined;
    data.push(...block.slice(0, lengths[b]));
  }
  return data;
}

// Arithmetic of the field of 256, with x^8 + x^4 + x^3 + x^2 + 1.
const power = new Uint8Array(512),
  log = new Uint8Array(256);
for (let i = 0, x = 1; i < 255; i++) {
  power[i] = power[i + 255] = x;
  log[x] = i;
  x = (x << 1) ^ (x & 128 ? 0x11d : 0);
}
const times = (a, b) => (a && b ? power[log[a] + log[b]] : 0);
const over = (a, b) => (a ? power[log[a] + 255 - log[b]] : 0);
const valueAt = (poly, x) => poly.reduceRight((sum, c) => times(sum, x) ^ c, 0); // lowest power first

/** correct mends a block in place: Reed and Solomon's code, by Berlekamp and Massey, Chien and Forney. */
function correct(block, extra) {
  const n = block.length,
    received = block.slice().reverse();
  const syndromes = Array.from({ length: extra }, (_, i) => valueAt(received, power[i]));
  if (syndromes.every((s) => s === 0)) return true;
  const locator = locatorOf(syndromes),
    wrong = [];
  for (let i = 0; i < n; i++) if (valueAt(locator, power[(255 - i) % 255]) === 0) wrong.push(i);
  if (wrong.length !== locator.length - 1 || wrong.length > extra / 2) return false;
  const evaluator = Array.from({ length: extra }, (_, i) =>
    locator.slice(0, i + 1).reduce((sum, c, j) => sum ^ times(c, syndromes[i - j]), 0),
  );
  const slope = locator.map((c, i) => (i % 2 ? c : 0)).slice(1);
  for (const i of wrong) {
    const inverse = power[(255 - i) % 255];
    block[n - 1 - i] ^= times(power[i], over(valueAt(evaluator, inverse), valueAt(slope, inverse)));
  }
  const mended = block.slice().reverse();
  return syndromes.every((_, i) => valueAt(mended, power[i]) === 0);
}

function locatorOf(syndromes) {
  let now = [1],
    before = [1],
    length = 0,
    shift = 1,
    last = 1;
  for (let i = 0; i < syndromes.length; i++) {
    let off = syndromes[i];
    for (let j = 1; j <= length; j++) off ^= times(now[j] ?? 0, syndromes[i - j]);
    if (off === 0) {
      shift++;
      continue;
    }
    const by = over(off, last),
      next = now.slice();
    for (let j = 0; j < before.length; j++) next[j + shift] = (next[j + shift] ?? 0) ^ times(by, before[j]);
    for (let j = 0; j < next.length; j++) next[j] ??= 0;
    if (2 * length <= i) {
      [before, last, length, shift] = [now, off, i + 1 - length, 1];
    } else shift++;
    now = next;
  }
  while (now.length > 1 && now.at(-1) === 0) now.pop();
  return now;
}

const letters = "0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZ $%*+-./:";

function saidBy(data, version) {
  let at = 0;
  const left = () => data.length * 8 - at;
  const take = (count) => {
    let n = 0;
    for (let i = 0; i < count; i++, at++) n = (n << 1) | ((data[at >> 3] >> (7 - (at & 7))) & 1);
    return n;
  };
  const wide = version >= mostVersion;
  let said = "";
  while (left() >= 4) {
    const mode = take(4);
    if (mode === 0) break;
    if (mode === 4) {
      const bytes = Array.from({ length: take(wide ? 16 : 8) }, () => take(8));
      said += new TextDecoder().decode(new Uint8Array(bytes));
    } else if (mode === 2) {
      let count = take(wide ? 11 : 9);
      for (; count > 1; count -= 2) {
        const two = take(11);
        said += (letters[Math.floor(two / 45)] ?? "") + letters[two % 45];
      }
      if (count === 1) said += letters[take(6)] ?? "";
    } else if (mode === 1) {
      let count = take(wide ? 12 : 10);
      for (; count > 0; count -= 3) {
        const digits = Math.min(3, count);
        said += String(take([0, 4, 7, 10][digits])).padStart(digits, "0");
      }
    } else return undefined; // another alphabet, or several codes in one: no label
    if (left() < 0) return undefined;
  }
  return said;
}

function textOf(grid) {
  const version = (grid.length - 17) / 4,
    format = formatOf(grid);
  if (!format) return undefined;
  const data = dataOf(codewordsOf(grid, version, format.mask), version, format.level);
  return data && saidBy(data, version);
}

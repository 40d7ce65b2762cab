// The contract as the forms see it: what kind of entry each member is, which members
// exclude each other, which go only with another. Nothing here knows a page.

/** Prefer names the way or the variant that is offered first, by the schema. */
const prefer = {
  Rings: "angle_deg",
  Stay: "station",
  Room: "station",
  Air: "rh_pct",
  Condition: "air",
  MovementRequest: "size_ring_angle_deg",
  BookmatchRequest: "stack",
  EMCRequest: "air",
  AssemblyMovementRequest: "room",
  Reading: "pin_meter",
};

const prefix = "#/components/schemas/";
const union = (a = [], b = []) => [...new Set([...a, ...b])];

export class Contract {
  constructor({ questions, schemas, photos }) {
    this.photos = photos; // whether the rack keeps photographs
    this.questions = questions;
    this.schemas = schemas;
    this.described = new Map();
  }

  /** resolve follows references, what stands beside them on top. */
  resolve(schema) {
    let at = schema;
    while (at.$ref) {
      const { $ref, ...beside } = at;
      const name = $ref.slice(prefix.length),
        target = this.schemas[name];
      at = {
        ...target,
        ...beside,
        name: at.name || name,
        required: union(target.required, beside.required),
        allOf: [...(target.allOf || []), ...(beside.allOf || [])],
      };
      if (target.$ref) at.$ref = target.$ref;
    }
    return at;
  }

  /** describe returns what a form needs to know of a schema. */
  describe(schema) {
    if (this.described.has(schema)) return this.described.get(schema);
    const found = this.kindOf(this.resolve(schema));
    this.described.set(schema, found);
    return found;
  }

  kindOf(s) {
    const about = { schema: s, description: s.description || "", default: s.default };
    if (s.enum && s.enum.length === 1) return { ...about, kind: "fixed", value: s.enum[0] };
    if (s.enum) return { ...about, kind: "choice", choices: s.enum };
    const dimension = dimensionOf(s);
    if (dimension) return { ...about, kind: "quantity", dimension };
    if (s.type === "array") return this.listOf(s, about);
    if (s.oneOf && !s.properties) return this.variantsOf(s, about);
    if (s.type === "object" || s.properties) return this.objectOf(s, about);
    if (s.type === "number" || s.type === "integer")
      return { ...about, kind: "number", whole: s.type === "integer", min: s.minimum, max: s.maximum };
    if (s.type === "boolean") return { ...about, kind: "yes" };
    return { ...about, kind: s.format === "date" ? "date" : s.maxLength > 1000 && !s.pattern ? "long" : "text" };
  }

  listOf(s, about) {
    const item = this.describe(s.items);
    const simple = ["number", "text", "choice"].includes(item.kind);
    return { ...about, kind: simple ? "few" : "list", item: s.items, least: s.minItems || 0, most: s.maxItems };
  }

  variantsOf(s, about) {
    const variants = s.oneOf.flatMap((v) => {
      const d = this.describe(v);
      return d.kind === "variants" ? d.variants : [{ key: keyOf(d), schema: v }];
    });
    const usual = variants.some((v) => v.key === "named") ? "named" : prefer[s.name] || variants[0].key;
    return { ...about, kind: "variants", variants, usual };
  }

  objectOf(s, about) {
    const members = s.properties || {},
      names = Object.keys(members);
    const ways = waysOf(s),
      inWay = new Set(ways.flatMap((w) => w.needs));
    const usual = ways.some((w) => w.key === prefer[s.name]) ? prefer[s.name] : ways[0]?.key;
    return {
      ...about,
      kind: "object",
      members,
      names,
      required: new Set(s.required || []),
      ways,
      inWay,
      usual,
      goesWith: goesWithOf(s),
    };
  }
}

function dimensionOf(s) {
  const pair = (s.oneOf || []).find((v) => v.properties?.value && v.properties?.unit?.enum);
  if (!pair) return undefined;
  const first = pair.properties.unit.enum[0];
  return { mm: "length", C: "temperature", kg: "mass", hPa: "pressure", MPa: "stiffness" }[first];
}

// The ways of an object: one of several members, or groups of them, and no more.
function waysOf(s) {
  const all = [s, ...(s.allOf || [])].map((x) => x.oneOf).find((x) => x && x.every((v) => v.required));
  return (all || []).map((v) => ({ key: v.required[0], needs: v.required }));
}

// What each member goes with: a list of sets, of which one has to be there.
function goesWithOf(s) {
  const with_ = {};
  for (const [name, needs] of Object.entries(s.dependentRequired || {})) with_[name] = [needs];
  for (const [name, d] of Object.entries(s.dependentSchemas || {})) {
    const sets = (d.anyOf || d.oneOf || [d]).filter((v) => v.required).map((v) => v.required);
    if (sets.length > 0) with_[name] = sets;
  }
  return with_;
}

// The name by which one of several variants is told apart.
function keyOf(d) {
  if (d.kind !== "object") return "named";
  const kind = d.members.kind;
  if (kind?.enum?.length === 1) return kind.enum[0];
  return [...d.required][0] || "figures";
}

/** shows says whether a member has a place in its object, in the way that was chosen. */
export function shows(d, name, way) {
  const chosen = d.ways.find((w) => w.key === way);
  if (d.inWay.has(name)) return chosen ? chosen.needs.includes(name) : false;
  const sets = d.goesWith[name];
  if (!sets || d.ways.length === 0) return true;
  return sets.some((set) => set.every((other) => !d.inWay.has(other) || chosen?.needs.includes(other)));
}

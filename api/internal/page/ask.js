// From a draft to a request, and from the problems of the service back to fields. No page here.
import { Collector, fieldOf } from "./draft.js";
import { setShop, shop } from "./kept.js";
import { Shown } from "./questions.js";

/** requestOf reads a draft: {request, errors, moves}; moves tell where faults of what the page wrote belong. */
export function requestOf(contract, question, schema, draft, system, day) {
  const shown = new Shown(question, draft);
  const collector = new Collector(contract, draft, { system, today: day, shown });
  const { page, ...request } = collector.collect(schema, "", true);
  collector.lacks();
  const errors = collector.errors;
  if (errors.length > 0) return { errors, moves: [] };
  const prepared = question.prepare ? question.prepare(request, page || {}) : { request, moves: [] };
  prepared.request.report_in = system;
  inFractions(contract.describe(schema).members, prepared.request, system);
  return { ...prepared, errors };
}

// A tape shows fractions: a plan in inches is asked for in the fraction last chosen.
function inFractions(members, request, system) {
  if (!members?.inch_fraction) return;
  if (system !== "inch") delete request.inch_fraction;
  else if (request.inch_fraction) setShop({ fraction: request.inch_fraction });
  else request.inch_fraction = shop().fraction;
}

/** placed turns the errors of a problem into errors of fields: {path, text, line}. */
export function placed(problem, moves, lines = {}) {
  const errors = problem.errors?.length ? problem.errors : [{ detail: problem.detail || problem.title }];
  return errors.map(({ pointer = "", detail, limit }) => {
    const move = moves
      .filter(([from]) => pointer === from || pointer.startsWith(from + "/"))
      .sort((a, b) => b[0].length - a[0].length)[0];
    const choices = limit?.choices?.slice(0, 5);
    if (!move) return { path: fieldOf(pointer), text: detail, choices };
    const [from, to, line] = move;
    const path = line === undefined && to !== "page.wet" ? to + pointer.slice(from.length).replaceAll("/", ".") : to;
    return { path, text: line === undefined ? detail : (lines[line]?.(detail) ?? detail), line, choices };
  });
}

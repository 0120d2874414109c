/** Why a search cannot be, as a list: each reason once, however many fields it is about. */

import { h } from "../kit/dom.js";
import { problemsOf, Problems } from "../kit/problems.js";

/**
 * @param {{ refused?: string, failed?: string }} news problems as JSON, or what the browser says
 * @returns {HTMLElement[]}
 */
export function refusals({ refused, failed }) {
  const all = refused ? problemsOf(new Problems(JSON.parse(refused))) : problemsOf(new Error(failed));
  const each = new Map(all.map((problem) => [problem.problem + problem.fix, problem]));
  return [...each.values()].map(({ problem, fix }) => h("li", {}, h("b", {}, problem), fix ? `: ${fix}` : ""));
}

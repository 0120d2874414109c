/** What in the half-section a line may join. */

import { rejoins } from "./rejoining.js";

const HOUSING = "housing";

/** @typedef {import("./grips.js").Grip} Grip */

/** Whether a line may lead from one thing to another. @param {Grip} from @param {Grip} to */
export function joins(from, to) {
  const kinds = [from.kind, to.kind].sort().join(" ");
  // An end is on one shaft at a time, and that is free to turn.
  if (kinds === "end member") return from.shaft !== to.shaft && ![from.shaft, to.shaft].includes(HOUSING);
  return from.key !== to.key && (kinds === "member member" || kinds === "housing member" || rejoins(from, to));
}

/** Kinds of sets, and how many teeth and pinions they may have. */

/** As files name them, with the messages that say them. */
export const KINDS = /** @type {[string, string][]} */ ([
  ["planetary", "kind-planetary"],
  ["double-pinion", "kind-double-pinion"],
  ["stepped", "kind-stepped"],
  ["stepped-suns", "kind-stepped-suns"],
  ["ravigneaux", "kind-ravigneaux"],
  ["gear-pair", "kind-external-pair"],
]);

export const TEETH = { least: 6, most: 999 };
export const PINIONS = { least: 1, most: 12 };

/** Both drawings of the stage, the levers before those of what is pinned. */

/** @typedef {import("../state/desk.js").Desk} Desk */
/** @typedef {"section" | "lever"} Drawing */

/**
 * @param {Desk} desk
 * @param {Drawing} drawing
 * @param {HTMLCanvasElement} canvas
 */
export function paint(desk, drawing, canvas) {
  /** @type {Parameters<typeof desk.pinned.ask<true>>[0]} */
  const compare = (engine, sandbox, pinned, legend) => {
    engine.drawCompared(sandbox, pinned, legend, canvas);
    return true;
  };
  if (drawing === "lever" && desk.pinned.ask(compare)) return;
  desk.ask((sandbox) => sandbox.draw(drawing, canvas));
}

/**
 * The shaft that is drawn in a place, by its id.
 * @param {Desk} desk
 * @param {Drawing} drawing
 * @param {number} x
 * @param {number} y
 */
export function shaftAt(desk, drawing, x, y) {
  const compared = drawing === "lever" && desk.pinned.ask((engine, sandbox, pinned) => [engine.shaftAtCompared(sandbox, pinned, x, y)]);
  return compared ? compared[0] : desk.ask((sandbox) => sandbox.shaftAt(drawing, x, y));
}

/** The power flow: a band for every stream of power, as wide as there is power in it. */

import { say } from "../kit/words.js";
import { follow } from "../state/follow.js";
import { drawing } from "../stage/drawing.js";

const DRAWING = "flow";

/**
 * @param {import("../kit/panel.js").Panel} panel
 * @param {import("./registry.js").Surroundings} surroundings
 */
export function fill(panel, { desk, redraw, draws, signal }) {
  const { canvas, holder, paint } = drawing(desk, DRAWING, ["answer", "light"], redraw, signal);
  panel.fill(holder);

  /** The height that suits the width `measured`, which takes a look at every range. @type {number | undefined} */
  let height;
  let measured = 0;

  /** @param {number} width */
  function heightAt(width) {
    if (measured !== width) {
      measured = width;
      height = desk.askWhole((engine, sandbox) => engine.flowHeight(sandbox, width));
    }
    return height;
  }

  draws(() => panel.open && paint(DRAWING, heightAt));
  panel.toggled(redraw);

  desk.addEventListener("answer", () => (measured = 0));
  follow(desk, ["train"], () => {
    canvas.setAttribute("aria-label", say("page-drawing-flow", { train: desk.info?.name ?? "" }));
  });
}

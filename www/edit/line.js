/** A line that follows the pointer. */

export function svgLine() {
  const name = "http://www.w3.org/2000/svg";
  const node = document.createElementNS(name, "svg");
  node.setAttribute("class", "grip-line");
  node.setAttribute("aria-hidden", "true");
  const line = document.createElementNS(name, "line");
  node.append(line);
  node.toggleAttribute("hidden", true);
  return {
    node,
    draw(/** @type {{ x: number, y: number }} */ from, /** @type {{ x: number, y: number }} */ to) {
      node.toggleAttribute("hidden", false);
      line.setAttribute("x1", String(from.x));
      line.setAttribute("y1", String(from.y));
      line.setAttribute("x2", String(to.x));
      line.setAttribute("y2", String(to.y));
    },
    hide: () => node.toggleAttribute("hidden", true),
  };
}

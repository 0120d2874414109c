/** The engine's reckoning of the train on the desk on a road, for what is asked of it. */

import { leave } from "../state/engine.js";
import { roadUnits } from "../state/road_units.js";

/** @typedef {import("../state/desk.js").Desk} Desk */
/** @typedef {import("../engine/levertrain_whole.js").Road} Road */
/** @typedef {import("../engine/levertrain_whole.js").Sandbox} Sandbox */

/**
 * What is asked: from which forward range on a converter is locked up, at which engine speed in rev/min ranges are left, and
 * the slopes besides the level, as rise over run.
 * @typedef {{ lockedFrom: number | undefined, shiftSpeed: number | undefined, slopes: number[] }} RoadAsk
 */

/** Times are told up to this speed in m/s, if the train goes so fast. */
const FASTEST = 125;

export class RoadOnDesk {
  #desk;
  /** @type {{ engine: import("../state/engine.js").WholeEngine, key: string, road: Road } | undefined} */
  #held;
  /** @type {RoadAsk} */
  asked = { lockedFrom: undefined, shiftSpeed: undefined, slopes: [] };
  /** The road speed in m/s that is looked at. @type {number | undefined} */
  cursor;

  /** @param {Desk} desk */
  constructor(desk) {
    this.#desk = desk;
  }

  /** What the train lacks, if anything; nothing before it is known. */
  lack() {
    return this.#desk.askWhole((engine, sandbox) => ({ lack: engine.roadLack(sandbox) }))?.lack;
  }

  /**
   * Asks the road of the train on the desk. Throws what is out of range in what is asked.
   * @template T
   * @param {(road: Road, sandbox: Sandbox) => T} question
   * @returns {T | undefined} nothing where the train has no road, or the engine is not there
   */
  ask(question) {
    return this.#desk.askWhole((engine, sandbox) => {
      if (engine.roadLack(sandbox)) return undefined;
      const { text, assumptions, units } = this.#desk;
      const { lockedFrom, shiftSpeed, slopes } = this.asked;
      const key = JSON.stringify([text, assumptions.mesh, units.torque, lockedFrom, shiftSpeed]);
      if (this.#held?.engine !== engine || this.#held.key !== key) {
        this.free();
        const { speed, step } = roadUnits(units);
        const count = Math.floor(FASTEST / speed.size / step);
        const targets = Float64Array.from({ length: count }, (_, at) => (at + 1) * step * speed.size);
        this.#held = { engine, key, road: new engine.Road(sandbox, lockedFrom, shiftSpeed, targets) };
      }
      const { road } = this.#held;
      road.show(Float64Array.from(slopes), this.cursor);
      return question(road, sandbox);
    });
  }

  /** Gives the memory back. */
  free() {
    if (this.#held) leave(this.#held.engine, this.#held.road);
    this.#held = undefined;
  }
}

/** A number exactly (`"12/5"`) and as a decimal. */
export interface Exact { fraction: string; decimal: number }
/** Thrown by every method that can fail on what it was given. */
export interface Faults { faults: { place: string; problem: string; fix: string }[] }
export type ElementKind = "brake" | "clutch" | "one-way";
export type OneWays = "settled" | "ambiguous" | "contradictory";
export type StateKey = "driving" | "over-applied" | "neutral" | "output-held" | "tied-up";
export type MotionWord = "held" | "forward" | "backward" | "free" | "fights";

export interface TrainInfo {
  name: string; about: string; input: string; output: string;
  shafts: { id: string; label: string }[];
  couplings: { id: string; label: string; kind: string; members: Member[] }[];
  elements: { id: string; label: string; kind: ElementKind; ends: [string, string]; nouns: [string, string] }[];
  ranges: { id: string; label: string; applied: string[] }[];
  warnings: { coupling: string; text: string }[];
  /** Whether any two levers can be joined in one. */
  joinable: boolean;
  /** Whether any clutch or brake has friction data. */
  friction: boolean;
  /** Labels; null where the scenario has none. */
  engine: string | null; converter: string | null; load: string | null;
}
export interface Member { role: string; shaft: string; teeth: number | null; speed: Exact | null }
/** Speeds are per input turn; null is a member that floats. */
export interface Combination {
  applied: string[]; state: StateKey; ratio: Exact | null;
  degreesOfFreedom: number; surplus: number;
  shafts: { id: string; label: string; speed: Exact | null }[];
  elements: { id: string; label: string; kind: ElementKind; applied: boolean; slip: Exact | null }[];
}
/** A combination without its speeds. */
export interface Outcome { applied: string[]; state: StateKey; ratio: Exact | null }
/** A formula in tooth symbols and with its numbers; the MathML is the inside of a `math` element. */
export interface Formula { symbols: string; numbers: string; symbolsMathml: string; numbersMathml: string }
export interface Working {
  /** Why there is no ratio to give. */
  noFormula: "no-ratio" | "only-these-teeth" | "too-long" | null;
  ratio: Formula | null;
  equations: { coupling: string; left: Formula; right: Formula }[];
}
/** Per unit of input torque and input power; null where equilibrium does not determine it. */
export interface Effort {
  determinate: boolean; output: Exact | null; housing: Exact | null;
  couplings: { id: string; torques: (Exact | null)[]; powers: (Exact | null)[];
    shares: { member: number; share: Exact }[] }[];
  elements: { id: string; torque: Exact | null; power: Exact | null }[];
  recirculating: Exact | null;
}
export interface Answer extends Combination {
  stateWords: string; answer: string; sentences: string[];
  couplings: { id: string; label: string; kind: string; members: Member[];
    pinions: { name: string; teeth: number; secondStep: number | null; speed: Exact | null }[];
    /** Tooth meetings per input and per output turn. */
    meshes: { mesh: string; perInput: Exact | null; perOutput: Exact | null }[] }[];
  releasable: string[];
  working: Working;
  /** Null unless the combination drives. */
  effort: Effort | null;
  fight: { elements: string[]; couplings: string[] } | null;
  /** One word per shaft, in the order of `shafts`. */
  motions: MotionWord[];
  /** Id of the named range that applies exactly these elements. */
  range: string | null;
  oneWays: OneWays;
  /** Whether the input holds the output back when the load drives. */
  engineBraking: boolean;
}
export interface Chart {
  ranges: (Combination & { id: string; label: string; step: Exact | null;
    oneWays: OneWays; engineBraking: boolean })[];
  spread: Exact | null;
}
/** CSS pixels. `closes` is the direction a drag closes the packs in, `bothWays` whether the opposite one does too. */
export interface Handle {
  id: string; left: number; top: number; width: number; height: number;
  closes: [number, number]; bothWays: boolean; travel: number;
}
export interface StageSize { width: number; sectionHeight: number; leverHeight: number }
/** Torques per unit of input torque; shares of the power that goes in. */
export interface Losses {
  outcome: "drives" | "self-locking" | "ambiguous" | "indeterminate" | "too-many" | "no-drive";
  efficiency: number | null; output: number | null;
  meshes: { coupling: string; mesh: string; share: number }[];
  drag: { element: string; share: number }[];
  elements: number[]; couplings: number[][];
}
/** Torques in N·m, the pressure in N/mm². Null is what is not known, or where there is nothing to hold. */
export interface Capacity {
  inputTorque: number;
  elements: { id: string; grip: "holds" | "slips" | "idle" | "undetermined" | "no-data";
    torque: number | null; margin: number | null;
    uniformWear: number | null; uniformPressure: number | null; greatestPressure: number | null;
    mostInput: number | null }[];
  firstToSlip: string | null; mostInput: number | null;
}
/** Speeds in rev/min, torques in N·m, powers in W. */
export interface OperatingPoint {
  stable: boolean; idling: boolean; engineSpeed: number; engineTorque: number;
  speedRatio: number; torqueRatio: number; capacityFactor: number | null;
  inputSpeed: number; inputTorque: number; outputSpeed: number; outputTorque: number;
  powerIn: number; powerOut: number; converterLoss: number; gearLoss: number;
}
export interface Operating {
  outcome: "steady" | "load-too-great" | "below-table" | "past-table" | "coasting" | "overruns"
    | "no-drive" | "self-locking" | "ambiguous" | "indeterminate" | "too-many";
  words: string; efficiency: number | null; points: OperatingPoint[];
  stall: OperatingPoint | null; loadAtRest: number | null;
}

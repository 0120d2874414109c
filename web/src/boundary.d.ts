/** A number exactly (`"12/5"`) and as a decimal. */
export interface Exact { fraction: string; decimal: number }
/** Thrown by every method that can fail on what it was given. */
export interface Faults { faults: { place: string; problem: string; fix: string }[] }
export type StateKey = "driving" | "over-applied" | "neutral" | "output-held" | "tied-up";
export type MotionWord = "held" | "forward" | "backward" | "free" | "fights";

export interface TrainInfo {
  name: string; about: string; input: string; output: string;
  shafts: { id: string; label: string }[];
  couplings: { id: string; label: string; kind: string; members: Member[] }[];
  elements: { id: string; label: string; kind: "brake" | "clutch"; ends: [string, string] }[];
  ranges: { id: string; label: string; applied: string[] }[];
  warnings: { coupling: string; text: string }[];
}
export interface Member { role: string; shaft: string; teeth: number | null; speed: Exact | null }
/** Speeds are per input turn; null is a member that floats. */
export interface Combination {
  applied: string[]; state: StateKey; ratio: Exact | null;
  degreesOfFreedom: number; surplus: number;
  shafts: { id: string; label: string; speed: Exact | null }[];
  elements: { id: string; label: string; kind: "brake" | "clutch"; applied: boolean; slip: Exact | null }[];
}
/** A combination without its speeds. */
export interface Outcome { applied: string[]; state: StateKey; ratio: Exact | null }
export interface Answer extends Combination {
  stateWords: string; answer: string; sentences: string[];
  couplings: { id: string; label: string; kind: string; members: Member[];
    pinions: { name: string; teeth: number; speed: Exact | null }[] }[];
  releasable: string[];
  fight: { elements: string[]; couplings: string[] } | null;
  /** One word per shaft, in the order of `shafts`. */
  motions: MotionWord[];
  /** Id of the named range that applies exactly these elements. */
  range: string | null;
}
export interface Chart {
  ranges: (Combination & { id: string; label: string; step: Exact | null })[];
  spread: Exact | null;
}
/** CSS pixels. `closes` is the direction a drag closes the packs in, `bothWays` whether the opposite one does too. */
export interface Handle {
  id: string; left: number; top: number; width: number; height: number;
  closes: [number, number]; bothWays: boolean; travel: number;
}
export interface StageSize { width: number; sectionHeight: number; leverHeight: number }

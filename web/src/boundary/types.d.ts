// Made from the Rust types: see `web/src/boundary/declarations.rs`.

export type ElementKind = "brake" | "clutch" | "one-way";

export type MotionWord = "held" | "forward" | "backward" | "free" | "fights";

export type OneWays = "settled" | "ambiguous" | "contradictory";

export type StateKey = "driving" | "over-applied" | "neutral" | "output-held" | "tied-up";

export type TaskKind = "reach" | "members" | "direction" | "speed" | "neutral" | "tie-up" | "order" | "teeth" | "failed";

/**
 * What a combination does and why, with the motion of each shaft as a word.
 */
export type Answer = { 
/**
 * `held`, `forward`, `backward`, `free` or `fights`, in the order of the shafts.
 */
motions: Array<MotionWord>, 
/**
 * Id of the named range that applies exactly these elements.
 */
range: string | null, 
/**
 * `settled`, `ambiguous` or `contradictory`: how the one-way clutches settle.
 */
oneWays: OneWays, 
/**
 * Whether the input holds the output back when the load drives.
 */
engineBraking: boolean, 
/**
 * Ids of the applied elements; one-way clutches, which lock by themselves, are left out.
 */
applied: Array<string>, 
/**
 * `driving`, `over-applied`, `neutral`, `output-held` or `tied-up`.
 */
state: StateKey, 
/**
 * Input speed over output speed.
 */
ratio: Exact | null, 
/**
 * How many speeds could be chosen independently.
 */
degreesOfFreedom: number, 
/**
 * How many applied elements take away no freedom.
 */
surplus: number, 
/**
 * Every shaft.
 */
shafts: Array<ShaftReport>, 
/**
 * Every shift element.
 */
elements: Array<ElementReport>, 
/**
 * The state in a word or two.
 */
stateWords: string, 
/**
 * The answer in one short line.
 */
answer: string, 
/**
 * Who holds, who drives, who delivers.
 */
sentences: Array<string>, 
/**
 * Every coupling with its members, pinions and meshes.
 */
couplings: Array<CouplingReport>, 
/**
 * Ids of the applied elements any one of which could be released without changing anything.
 */
releasable: Array<string>, 
/**
 * What fights, when tied up.
 */
fight: FightReport | null, 
/**
 * Torques and powers; `null` unless the combination drives.
 */
effort: Effort | null, };

/**
 * A box in the drawing.
 */
export type Area = { 
/**
 * Left edge.
 */
left: number, 
/**
 * Upper edge.
 */
top: number, 
/**
 * Width.
 */
width: number, 
/**
 * Height.
 */
height: number, };

/**
 * What ratios are wanted, from which tooth counts, and what makes one train better than another.
 */
export type Ask = { 
/**
 * Wanted ratios of ranges; those of others are free.
 */
wanted: Array<Wanted>, 
/**
 * The largest forward ratio over the smallest, where it is wanted.
 */
spread?: Near, 
/**
 * Each step over the next one, where that is wanted: 1 for steps that are all alike, more for steps that
 * become smaller towards the last range.
 */
steps?: Near, 
/**
 * Fewest and most teeth of suns, rings and gears of pairs.
 */
teeth: [number, number], 
/**
 * Fewest and most teeth of pinions.
 */
pinion_teeth: [number, number], 
/**
 * How many pinions may stand around the axis of a set, the most welcome number first.
 */
pinions: Array<number>, 
/**
 * Sets that keep the teeth they have, by id.
 */
keep?: Array<string>, 
/**
 * Sets whose rings must have as many teeth, by id, one list for each such group.
 */
same_ring?: Array<Array<string>>, 
/**
 * Pairs of gears whose axes must be as far apart, all gears having one module, by id, one list for each such group: those that
 * lead away from an axis and back to it.
 */
same_distance?: Array<Array<string>>, 
/**
 * The tooth rules that must hold.
 */
rules: Array<ToothRule>, 
/**
 * Bounds on what comes of it.
 */
limits: Limits, 
/**
 * What makes one train better than another; a find is one that no other beats in all of them.
 */
best: Array<Criterion>, };

/**
 * What a range becomes.
 */
export type Becomes = { 
/**
 * `right`, `no-engine-braking`, `engine-braking`, `lost`, `slips`, `drives`, `output-held`, `ties-up`
 * or `undecided`.
 */
outcome: "right" | "no-engine-braking" | "engine-braking" | "lost" | "slips" | "drives" | "output-held" | "ties-up" | "undecided", 
/**
 * The ratio that it has and should not have.
 */
ratio: Exact | null, 
/**
 * Label of the first range that has that ratio while nothing is broken.
 */
like: string | null, 
/**
 * Why it no longer drives, or drives otherwise: sentences.
 */
why: Array<string>, };

/**
 * How the applied elements of a combination hold at an input torque. Torques are in N·m.
 */
export type Capacity = { 
/**
 * The input torque.
 */
inputTorque: number, 
/**
 * The applied elements and the one-way clutches that lock; none where it does not drive.
 */
elements: Array<ElementCapacity>, 
/**
 * Id of the element that slips first as the input torque grows, where that is known.
 */
firstToSlip: string | null, 
/**
 * The largest input torque before that.
 */
mostInput: number | null, };

/**
 * A row of ranges that a train could have.
 */
export type Chain = { 
/**
 * Its combinations, the largest ratio first.
 */
nodes: Array<ChainNode>, 
/**
 * The largest ratio over the smallest.
 */
spread: Exact, 
/**
 * The steps from one to the next.
 */
steps: Array<Exact>, 
/**
 * How much they vary: 1 where all are the same.
 */
variation: Exact, };

/**
 * A combination that drives.
 */
export type ChainNode = { 
/**
 * Its place in the order of all.
 */
node: number, 
/**
 * Ids of what is applied.
 */
applied: Array<string>, 
/**
 * Input speed over output speed.
 */
ratio: Exact, 
/**
 * What people call the ranges that it is.
 */
labels: Array<string>, };

/**
 * The ranges that a train could have.
 */
export type Chains = { 
/**
 * Best first; none where no step is within the bounds.
 */
chains: Array<Chain>, 
/**
 * Whether they were all looked for: otherwise there are too many, and none is told.
 */
complete: boolean, };

/**
 * The range chart.
 */
export type Chart = { 
/**
 * One entry a range.
 */
ranges: Array<RangeReport>, 
/**
 * Largest forward ratio over the smallest.
 */
spread: Exact | null, };

/**
 * One choice.
 */
export type Choice = { 
/**
 * What an answer calls it.
 */
id: string, 
/**
 * What people call it.
 */
label: string, 
/**
 * What a gear has now.
 */
now: number | null, };

/**
 * What one combination does. Speeds are per input turn; `null` is a member that floats.
 */
export type Combination = { 
/**
 * Ids of the applied elements; one-way clutches, which lock by themselves, are left out.
 */
applied: Array<string>, 
/**
 * `driving`, `over-applied`, `neutral`, `output-held` or `tied-up`.
 */
state: StateKey, 
/**
 * Input speed over output speed.
 */
ratio: Exact | null, 
/**
 * How many speeds could be chosen independently.
 */
degreesOfFreedom: number, 
/**
 * How many applied elements take away no freedom.
 */
surplus: number, 
/**
 * Every shaft.
 */
shafts: Array<ShaftReport>, 
/**
 * Every shift element.
 */
elements: Array<ElementReport>, };

/**
 * The efforts of a coupling's members, in member order.
 */
export type CouplingEffort = { 
/**
 * Its id.
 */
id: string, 
/**
 * Torque on each member from its shaft.
 */
torques: Array<Exact | null>, 
/**
 * Power into the coupling through each member.
 */
powers: Array<Exact | null>, 
/**
 * Where two members or more drive at once: index of each, and its part of what goes in.
 */
shares: Array<ShareReport>, };

export type CouplingInfo = { id: string, label: string, kind: string, members: Array<Member>, };

/**
 * A coupling's members, pinions and meshes.
 */
export type CouplingReport = { 
/**
 * Its id.
 */
id: string, 
/**
 * What people call it.
 */
label: string, 
/**
 * Its kind in words.
 */
kind: string, 
/**
 * Its members.
 */
members: Array<Member>, 
/**
 * Its pinions, each with its speed about its own pin.
 */
pinions: Array<PinionReport>, 
/**
 * Its meshes, each with its orders.
 */
meshes: Array<MeshOrderReport>, };

/**
 * What makes one train better than another: less of it, or more for efficiency.
 */
export type Criterion = "error" | "steps" | "size" | "efficiency" | "pinion-speed";

/**
 * The loss of an open element.
 */
export type DragLoss = { 
/**
 * Id of the element.
 */
element: string, 
/**
 * Its loss as a share of the power that goes in.
 */
share: number, };

/**
 * One change of a scenario. Sets, shafts, elements and ranges are named by their ids; gears
 * and members are counted from 0 in the order of [`crate::coupling::Parts`].
 */
export type Edit = { "edit": "name", name: string, } | { "edit": "about", about: string, } | { "edit": "housing", label: string, } | { "edit": "input", shaft: string, } | { "edit": "output", shaft: string, } | { "edit": "add-set", kind: string, at: number, } | { "edit": "repeat-set", set: string, } | { "edit": "remove-set", set: string, } | { "edit": "move-set", set: string, at: number, } | { "edit": "label-set", set: string, label: string, } | { "edit": "teeth", set: string, gear: number, teeth: Teeth, } | { "edit": "cut", set: string, teeth: Array<Teeth>, } | { "edit": "cut-sets", sets: Array<SetTeeth>, } | { "edit": "count", set: string, count: PinionCount, } | { "edit": "turn", set: string, turned: boolean | null, } | { "edit": "mesh", set: string, mesh: Mesh, } | { "edit": "place", set: string, member: number, shaft: string, } | { "edit": "connect", first: string, second: string, } | { "edit": "label-shaft", shaft: string, label: string, } | { "edit": "add-element", kind: string, ends: [string, string], } | { "edit": "remove-element", element: string, } | { "edit": "move-element", element: string, at: number, } | { "edit": "label-element", element: string, label: string, } | { "edit": "ends", element: string, ends: [string, string], } | { "edit": "locks", element: string, way: Way, } | { "edit": "gap", element: string, gap: number | null, } | { "edit": "friction", element: string, friction: Friction | null, } | { "edit": "add-range", label: string, applied: Array<string>, } | { "edit": "remove-range", range: string, } | { "edit": "move-range", range: string, at: number, } | { "edit": "label-range", range: string, label: string, } | { "edit": "applied", range: string, applied: Array<string>, } | { "edit": "surround", part: Part, there: boolean, } | { "edit": "label-part", part: Part, label: string, } | { "edit": "amount", rows: Rows, at: number, column: number, amount: number, } | { "edit": "point", rows: Rows, at: number, there: boolean, } | { "edit": "state", path: Array<string>, amount: number | null, };

/**
 * Ideal torques per unit of input torque, and powers per unit of input power. `null` is a
 * torque that equilibrium does not determine.
 */
export type Effort = { 
/**
 * Whether every torque is determined; otherwise more is applied than needed.
 */
determinate: boolean, 
/**
 * Torque on the train from outside at the output: minus what it delivers.
 */
output: Exact | null, 
/**
 * Torque the train puts on the housing.
 */
housing: Exact | null, 
/**
 * One entry a coupling.
 */
couplings: Array<CouplingEffort>, 
/**
 * One entry an element, open ones with zero.
 */
elements: Array<ElementEffort>, 
/**
 * The largest power anywhere where that is more than the input's.
 */
recirculating: Exact | null, };

/**
 * What an applied element must hold, and can.
 */
export type ElementCapacity = { 
/**
 * Its id.
 */
id: string, 
/**
 * `holds`, `slips`, `idle`, `undetermined` or `no-data`.
 */
grip: "holds" | "slips" | "idle" | "undetermined" | "no-data", 
/**
 * Size of the torque it must hold.
 */
torque: number | null, 
/**
 * Capacity by uniform wear over that torque.
 */
margin: number | null, 
/**
 * Capacity by uniform wear.
 */
uniformWear: number | null, 
/**
 * Capacity by uniform pressure.
 */
uniformPressure: number | null, 
/**
 * Greatest pressure on the run-in lining in N/mm².
 */
greatestPressure: number | null, 
/**
 * The largest input torque it holds.
 */
mostInput: number | null, };

/**
 * What an element carries.
 */
export type ElementEffort = { 
/**
 * Its id.
 */
id: string, 
/**
 * Torque from its first end to its second; a brake's holding torque.
 */
torque: Exact | null, 
/**
 * Power from its first end to its second.
 */
power: Exact | null, };

/**
 * Where the packs of an element are.
 */
export type ElementGrip = { 
/**
 * Its id.
 */
id: string, 
/**
 * A box about them.
 */
area: Area, 
/**
 * The room along the axis that it is in, or that is before the set it hangs over.
 */
gap: number, };

export type ElementInfo = { id: string, label: string, kind: ElementKind, 
/**
 * Labels of the two bodies it joins.
 */
ends: [string, string], 
/**
 * The same inside a sentence.
 */
nouns: [string, string], };

/**
 * A shift element's slip.
 */
export type ElementReport = { 
/**
 * Its id.
 */
id: string, 
/**
 * What people call it.
 */
label: string, 
/**
 * `brake`, `clutch` or `one-way`.
 */
kind: ElementKind, 
/**
 * Whether it is applied, or locks.
 */
applied: boolean, 
/**
 * Speed of its first end minus that of its second, per input turn.
 */
slip: Exact | null, };

export type ElementSheet = { id: string, label: string, kind: ElementKind, 
/**
 * Ids of what it joins; the second may be `housing`.
 */
ends: [string, string], 
/**
 * Whether a one-way clutch keeps its first end from turning backward past the second, rather than
 * forward; nothing for others.
 */
backward: boolean | null, 
/**
 * What it can hold, where that is known.
 */
friction: Friction | null, 
/**
 * The room along the axis that it is drawn in, where that was chosen.
 */
gap: number | null, };

/**
 * left = right.
 */
export type EquationReport = { 
/**
 * Id of the coupling.
 */
coupling: string, 
/**
 * Left side.
 */
left: Formula, 
/**
 * Right side.
 */
right: Formula, };

/**
 * A number exactly and as a decimal.
 */
export type Exact = { 
/**
 * `12/5`, `-2`.
 */
fraction: string, 
/**
 * The nearest `f64`.
 */
decimal: number, };

/**
 * The questions of a sheet.
 */
export type ExerciseSheet = { 
/**
 * What people call it.
 */
title: string, 
/**
 * Ids of the ranges to walk through first.
 */
walk: Array<string>, 
/**
 * In the order in which they are set.
 */
questions: Array<Question>, };

/**
 * What explains what was observed.
 */
export type Explanations = { 
/**
 * Fewest faults first.
 */
groups: Array<FaultGroup>, 
/**
 * What to try next; `null` where nothing tells them apart.
 */
next: NextTest | null, 
/**
 * Of each trial the ratios that it may be found to have and should not, longest first.
 */
ratios: Array<Array<Exact>>, };

/**
 * How large the half-section is in large letters, in CSS pixels.
 */
export type FarSize = { 
/**
 * From its left to its right edge.
 */
width: number, 
/**
 * From its upper to its lower edge.
 */
height: number, 
/**
 * How much of that is above the half-section as it is else.
 */
above: number, };

/**
 * One fault.
 */
export type Fault = { 
/**
 * `will-not-apply`, `will-not-release`, `slips`, `does-not-hold`, `stays-locked` or `broken-spline`.
 */
kind: "will-not-apply" | "will-not-release" | "slips" | "does-not-hold" | "stays-locked" | "broken-spline", 
/**
 * Id of the element or of the set.
 */
id: string, 
/**
 * What people call that.
 */
label: string, 
/**
 * The member of the set, as a word; `null` for an element.
 */
member: string | null, };

/**
 * Faults that no range tells apart.
 */
export type FaultGroup = { 
/**
 * `single`, `both`, or `beside` for two faults of which one explains everything alone.
 */
rank: "single" | "both" | "beside", 
/**
 * The faults of each, by their places in the list of all.
 */
sets: Array<Array<number>>, };

/**
 * What can be broken in a train, and what is tried.
 */
export type Faults = { 
/**
 * All single faults; elsewhere they are told by their place here.
 */
faults: Array<Fault>, 
/**
 * What is tried, in order.
 */
trials: Array<Trial>, };

/**
 * A smallest set that fights.
 */
export type FightReport = { 
/**
 * Ids of the elements.
 */
elements: Array<string>, 
/**
 * Ids of the couplings.
 */
couplings: Array<string>, };

/**
 * Tooth counts that no others beat.
 */
export type Find = { 
/**
 * The sets that were looked for.
 */
sets: Array<SetTeeth>, 
/**
 * The ratio of each wanted range; left out where the page is told, which does not show them.
 */
ratios?: Array<Exact>, 
/**
 * How far what is off most is off, as a part.
 */
error: number, 
/**
 * How far the steps are from their law, as a part.
 */
unevenness: number, 
/**
 * Teeth of the largest ring, or of what reaches out as far.
 */
size: number, 
/**
 * The lowest efficiency.
 */
efficiency: number, 
/**
 * The fastest pinion, in turns of the input.
 */
pinion_speed: number, 
/**
 * The fastest difference across an open element, in turns of the input.
 */
open_speed: number, };

/**
 * How far a search is, and what it has found.
 */
export type Finding = { 
/**
 * How many candidates there are within the bounds; each of those below is a part of it.
 */
candidates: number, 
/**
 * Cut off, as none of them can be what was asked for.
 */
outside: number, 
/**
 * Cut off, as a find beats all of them.
 */
beaten: number, 
/**
 * Tried one by one.
 */
tried: number, 
/**
 * How many boxes were looked at, which is what takes the time.
 */
boxes: number, 
/**
 * Whether it ended early, as there are more finds than are kept.
 */
full: boolean, 
/**
 * The teeth that the train has, measured in the same way, where all wanted ranges drive with them.
 */
present: Find | null, 
/**
 * What no other beats, those first that are best in what counts first.
 */
finds: Array<Find>, };

/**
 * A formula in symbols and with its tooth counts put in.
 */
export type Formula = { 
/**
 * `1 + R1/S1`.
 */
symbols: string, 
/**
 * `1 + 84/36`.
 */
numbers: string, 
/**
 * The symbols as the inside of a MathML `math` element.
 */
symbolsMathml: string, 
/**
 * The numbers likewise.
 */
numbersMathml: string, };

/**
 * Ring-shaped friction surfaces pressed together by one force. Lengths are radii in mm.
 */
export type Friction = { 
/**
 * How many pairs of faces rub: twice the discs that are lined on both sides, or n1 + n2 − 1
 * for n1 driving and n2 driven plates stacked in turns.
 */
surfaces: number, 
/**
 * Outer radius of the lining in mm.
 */
outer_radius: number, 
/**
 * Inner radius of the lining in mm.
 */
inner_radius: number, 
/**
 * Coefficient of friction.
 */
coefficient: number, 
/**
 * Force in N that presses the stack together, springs and losses already taken off.
 */
clamp_force: number, };

export type GearSheet = { 
/**
 * What it is called.
 */
name: string, teeth: number, };

/**
 * Places in the half-section, in CSS pixels.
 */
export type Grips = { 
/**
 * The members of the sets and pairs.
 */
members: Array<MemberGrip>, 
/**
 * The sets and pairs, in order along the axis.
 */
sets: Array<SetGrip>, 
/**
 * The brakes and clutches, one-way clutches too.
 */
elements: Array<ElementGrip>, 
/**
 * Where the input comes in and where the output goes out, each from the edge of the drawing.
 */
ends: [Area, Area], 
/**
 * The middle of the room before the first set, between two and after the last.
 */
gaps: Array<number>, 
/**
 * Height of the axis.
 */
axis: number, 
/**
 * Underside of the housing.
 */
housing: number, };

/**
 * Where a shift element can be taken hold of in the half-section drawing, in CSS pixels.
 */
export type Handle = { 
/**
 * Id of the element.
 */
id: string, 
/**
 * Left edge.
 */
left: number, 
/**
 * Upper edge.
 */
top: number, 
/**
 * Width.
 */
width: number, 
/**
 * Height.
 */
height: number, 
/**
 * The way a drag closes it: `(1, 0)` to the right, `(0, -1)` up.
 */
closes: [number, number], 
/**
 * Whether the opposite way closes it as well: either pack can be the one that is moved.
 */
bothWays: boolean, 
/**
 * How far it must be dragged to close, in CSS pixels.
 */
travel: number, };

/**
 * Which layouts are looked for, and what they must give.
 */
export type LayoutAsk = { 
/**
 * The kind of each set, as in a scenario; all but pairs of gears, which have no axis in common.
 */
sets: Array<string>, 
/**
 * How many elements are applied in each range.
 */
applied: number, 
/**
 * Most clutches and brakes together.
 */
elements: number, 
/**
 * Most clutches, where there is a limit to them alone.
 */
clutches?: number, 
/**
 * Most brakes, where there is a limit to them alone.
 */
brakes?: number, 
/**
 * The forward ranges, the one with the largest ratio first.
 */
forward: Array<WantedRatio>, 
/**
 * The backward range, where there must be one.
 */
backward?: WantedRatio, 
/**
 * The largest forward ratio over the smallest, where it is wanted.
 */
spread?: Near, 
/**
 * Least and greatest step from a forward range to the next, where that is wanted.
 */
step?: [number, number], 
/**
 * Whether neighbouring forward ranges must differ by one element released and one applied.
 */
single_swaps: boolean, 
/**
 * Whether a forward range must be direct drive whatever the teeth, or none may be; either where it is left out.
 */
direct?: boolean, 
/**
 * Fewest and most teeth of suns and rings.
 */
teeth: [number, number], 
/**
 * Fewest and most teeth of pinions.
 */
pinion_teeth: [number, number], 
/**
 * How many pinions may stand around the axis of a set, the most welcome number first.
 */
pinions: Array<number>, 
/**
 * The tooth rules that must hold.
 */
rules: Array<ToothRule>, 
/**
 * Bounds on what comes of it, in all ranges.
 */
limits: Limits, };

/**
 * A layout that gives what is wanted.
 */
export type LayoutReport = { 
/**
 * It, with its best teeth, as the text of a scenario file.
 */
scenario: string, 
/**
 * The ratio of each range.
 */
ratios: Array<Exact>, 
/**
 * How far the ratio that is off most is off, as a part.
 */
error: number, 
/**
 * The largest forward ratio over the smallest.
 */
spread: number, 
/**
 * How far the steps are from being all alike, as a part.
 */
unevenness: number, 
/**
 * How many clutches it has.
 */
clutches: number, 
/**
 * How many brakes it has.
 */
brakes: number, 
/**
 * Teeth of the largest ring, or of what reaches out as far.
 */
size: number, 
/**
 * The lowest efficiency.
 */
efficiency: number, 
/**
 * The fastest pinion, in turns of the input.
 */
pinion_speed: number, 
/**
 * Whether all teeth were tried.
 */
ended: boolean, 
/**
 * Whether it is decided that its shafts nest.
 */
nests: boolean, };

/**
 * How far a search for layouts is, and what it has found.
 */
export type LayoutsReport = { 
/**
 * How far it is, from 0 to 1.
 */
progress: number, 
/**
 * Ways of joining the sets that were looked at, each once.
 */
frames: number, 
/**
 * Those of them whose shafts would pass through each other.
 */
crossing: number, 
/**
 * Those of them that have more choices than are gone through.
 */
given_up: number, 
/**
 * Layouts that can give the ratios as far as tooth ratios tell.
 */
layouts: number, 
/**
 * Those of them that cannot be built, or have an element to spare.
 */
useless: number, 
/**
 * Those of them for which there are no teeth.
 */
toothless: number, 
/**
 * Those for which not all teeth were tried.
 */
unended: number, 
/**
 * The wanted ranges, from 0, the forward ones first, whose ratio no way of joining the sets that was looked at can give.
 */
unreached: Array<number>, 
/**
 * Whether there are more than are kept.
 */
full: boolean, 
/**
 * How many are kept.
 */
count: number, 
/**
 * The best of them, those first whose ratios are off least.
 */
found: Array<LayoutReport>, };

/**
 * Bounds on what comes of tooth counts, in all ranges for which a ratio is wanted; each may be left out.
 */
export type Limits = { 
/**
 * Fastest that a pinion may turn about its pin, in turns of the input.
 */
pinion_speed?: number, 
/**
 * Fastest that the two sides of an open clutch or brake may turn against each other, in turns of the input.
 */
open_speed?: number, 
/**
 * Least efficiency, with the usual loss of each mesh ([`crate::MESH_EFFICIENCY`]).
 */
efficiency?: number, };

/**
 * How a combination fares with losses. Torques are per unit of input torque, losses shares of
 * the power that goes in.
 */
export type Losses = { 
/**
 * `drives`, `self-locking`, `ambiguous`, `indeterminate`, `too-many`, or `no-drive`.
 */
outcome: "drives" | "self-locking" | "ambiguous" | "indeterminate" | "too-many" | "no-drive", 
/**
 * Power out over power in, where it drives.
 */
efficiency: number | null, 
/**
 * Torque on the train from outside at the output.
 */
output: number | null, 
/**
 * Loss of each mesh of each coupling.
 */
meshes: Array<MeshLoss>, 
/**
 * Loss in the drag of each open element that slips.
 */
drag: Array<DragLoss>, 
/**
 * Torque each element passes from its first end to its second, in the scenario's order.
 */
elements: Array<number>, 
/**
 * Torques on the members of each coupling, in member order.
 */
couplings: Array<Array<number>>, };

/**
 * What an answer is worth.
 */
export type Mark = { 
/**
 * From 0 to 1.
 */
credit: Exact, 
/**
 * Whether all of it is right.
 */
right: boolean, 
/**
 * What to look at next, as sentences.
 */
hints: Array<string>, };

/**
 * A member of a coupling.
 */
export type Member = { 
/**
 * `sun`, `ring`, `carrier`…
 */
role: string, 
/**
 * What its teeth, or a carrier's speed, are called in formulas: `S`, `Sa`, `R`, `C`…
 */
letter: string, 
/**
 * Id of its shaft, or `housing`.
 */
shaft: string, 
/**
 * Its tooth count; a carrier has none.
 */
teeth: number | null, 
/**
 * Per input turn.
 */
speed: Exact | null, };

/**
 * Where a member is.
 */
export type MemberGrip = { 
/**
 * Id of its set.
 */
set: string, 
/**
 * Which of the members it is, as edits count them.
 */
at: number, 
/**
 * Id of its shaft, or `housing`.
 */
shaft: string, 
/**
 * Its box.
 */
area: Area, };

export type MemberSheet = { 
/**
 * Which of the members it is, as edits count them.
 */
at: number, 
/**
 * What it is: `sun`, `ring`, `carrier`…
 */
role: string, 
/**
 * Id of its shaft, or `housing`.
 */
shaft: string, 
/**
 * Which of the gears it is; a carrier is none.
 */
gear: number | null, };

/**
 * How the teeth of a pair meet.
 */
export type Mesh = "external" | "internal";

/**
 * The loss of a mesh.
 */
export type MeshLoss = { 
/**
 * Id of its coupling.
 */
coupling: string, 
/**
 * Which mesh.
 */
mesh: string, 
/**
 * Its loss as a share of the power that goes in.
 */
share: number, };

/**
 * The order of a mesh: times n / 60 it is a frequency in Hz at n rev/min. `null` is what is not
 * determined, or a standing output.
 */
export type MeshOrderReport = { 
/**
 * Which mesh.
 */
mesh: string, 
/**
 * Tooth meetings per input turn.
 */
perInput: Exact | null, 
/**
 * Tooth meetings per output turn.
 */
perOutput: Exact | null, };

export type Named = { id: string, label: string, };

/**
 * A wanted quotient of two ratios, or of two steps.
 */
export type Near = { 
/**
 * What it should be.
 */
value: number, 
/**
 * How far it may be off, as a part of that.
 */
tolerance: number, };

/**
 * A ratio that a set could have, and its teeth then.
 */
export type NearRatioInfo = { 
/**
 * The ratio.
 */
ratio: Exact, 
/**
 * The tooth counts in the order of the gears.
 */
teeth: Array<number>, };

/**
 * The ratios near that of a set.
 */
export type NearRatios = { 
/**
 * The ratio as a formula, such as R/S.
 */
formula: string, 
/**
 * Its own.
 */
own: Exact, 
/**
 * Those that tooth counts near its own have, rising.
 */
near: Array<NearRatioInfo>, };

/**
 * The range to try next.
 */
export type NextTest = { 
/**
 * Its place among the trials.
 */
trial: number, 
/**
 * How many explanations it is asked about.
 */
of: number, 
/**
 * How many of them will be left in the mean.
 */
left: number, 
/**
 * The most that can be left.
 */
most: number, };

/**
 * Where engine, train and load agree. Speeds in rev/min, torques in N·m, powers in W.
 */
export type Operating = { 
/**
 * `steady`, or why there is no steady point: `load-too-great`, `below-table`, `past-table`,
 * `coasting`, `overruns`, or, where no power passes, `no-drive`, `self-locking`,
 * `ambiguous`, `indeterminate`, `too-many`.
 */
outcome: "steady" | "load-too-great" | "below-table" | "past-table" | "coasting" | "overruns" | "no-drive" | "self-locking" | "ambiguous" | "indeterminate" | "too-many", 
/**
 * The same as a sentence.
 */
words: string, 
/**
 * Power out over power in of the train while the engine drives.
 */
efficiency: number | null, 
/**
 * Every steady point, by rising speed.
 */
points: Array<OperatingPoint>, 
/**
 * With an open converter: where the engine settles while the output is held.
 */
stall: OperatingPoint | null, 
/**
 * Torque with which the load holds the output at standstill.
 */
loadAtRest: number | null, };

/**
 * A steady point.
 */
export type OperatingPoint = { 
/**
 * Whether speeds come back when pushed.
 */
stable: boolean, 
/**
 * Whether the idle control holds the engine, with more torque than the pedal asks for.
 */
idling: boolean, 
/**
 * Of engine and pump.
 */
engineSpeed: number, 
/**
 * Of engine and pump.
 */
engineTorque: number, 
/**
 * Turbine speed over pump speed.
 */
speedRatio: number, 
/**
 * Turbine torque over pump torque.
 */
torqueRatio: number, 
/**
 * K = N/√T of the pump; `null` when nothing slips.
 */
capacityFactor: number | null, 
/**
 * Of the turbine, the train's input.
 */
inputSpeed: number, 
/**
 * Of the turbine.
 */
inputTorque: number, 
/**
 * Negative backward.
 */
outputSpeed: number, 
/**
 * Of the train on the output.
 */
outputTorque: number, 
/**
 * Of the engine.
 */
powerIn: number, 
/**
 * At the output.
 */
powerOut: number, 
/**
 * Heat in the converter.
 */
converterLoss: number, 
/**
 * Heat in the meshes.
 */
gearLoss: number, };

/**
 * What stands around a train.
 */
export type Part = "engine" | "converter" | "load";

/**
 * How many pinions a row has, from 1 to 12.
 */
export type PinionCount = number;

/**
 * A pinion's speed about its own pin.
 */
export type PinionReport = { 
/**
 * What to call it.
 */
name: string, 
/**
 * Its tooth count; of a stepped pinion, that of the step on the sun.
 */
teeth: number, 
/**
 * Tooth count of the other step of a stepped pinion.
 */
secondStep: number | null, 
/**
 * Per input turn, relative to the carrier.
 */
speed: Exact | null, };

/**
 * A problem for the page.
 */
export type ProblemInfo = { place: string, problem: string, fix: string, };

/**
 * A question, with nothing that answers it.
 */
export type Question = { 
/**
 * The task as a file has it.
 */
task: TaskText, 
/**
 * The question as a sentence.
 */
text: string, 
/**
 * What is known: which elements are applied, where that is given.
 */
given: string | null, 
/**
 * How it is answered: `stage` by applying elements, `one` or `many` by picking, `order` by putting in
 * order, `number` by writing one, `counts` by writing one for each.
 */
by: "stage" | "one" | "many" | "order" | "number" | "counts", 
/**
 * What there is to pick, put in order or count.
 */
choices: Array<Choice>, 
/**
 * What the ranges have become, where that is what the question is about.
 */
rows: Array<QuestionRow>, 
/**
 * Id of the range that it is about, whose speeds it asks for.
 */
range: string | null, };

/**
 * What a range has become.
 */
export type QuestionRow = { 
/**
 * What people call the range, and what it applies.
 */
label: string, 
/**
 * Its outcome as one word.
 */
does: string, 
/**
 * The ratio that it has and should not have.
 */
ratio: Exact | null, 
/**
 * The same in words.
 */
words: string, };

export type RangeInfo = { id: string, label: string, applied: Array<string>, };

/**
 * One range of the chart.
 */
export type RangeReport = { 
/**
 * Its id.
 */
id: string, 
/**
 * What people call it.
 */
label: string, 
/**
 * Ratio of this range over the next other ratio.
 */
step: Exact | null, 
/**
 * `settled`, `ambiguous` or `contradictory`: how its one-way clutches settle.
 */
oneWays: OneWays, 
/**
 * Whether it holds the output back when the load drives.
 */
engineBraking: boolean, 
/**
 * Ids of the applied elements; one-way clutches, which lock by themselves, are left out.
 */
applied: Array<string>, 
/**
 * `driving`, `over-applied`, `neutral`, `output-held` or `tied-up`.
 */
state: StateKey, 
/**
 * Input speed over output speed.
 */
ratio: Exact | null, 
/**
 * How many speeds could be chosen independently.
 */
degreesOfFreedom: number, 
/**
 * How many applied elements take away no freedom.
 */
surplus: number, 
/**
 * Every shaft.
 */
shafts: Array<ShaftReport>, 
/**
 * Every shift element.
 */
elements: Array<ElementReport>, };

/**
 * A shift from one named range to another.
 */
export type RangeShift = { 
/**
 * Id of the range that it begins in.
 */
from: string, 
/**
 * Id of the range that it leads to.
 */
to: string, 
/**
 * `same`, `alone`, `single`, `double` or `more`: how much is released and applied.
 */
kind: "same" | "alone" | "single" | "double" | "more", 
/**
 * Ids of what is released.
 */
released: Array<string>, 
/**
 * Ids of what is applied.
 */
applied: Array<string>, 
/**
 * The ratio before over that after; `null` where the output turns round.
 */
step: Exact | null, 
/**
 * Whether it skips no range.
 */
next: boolean, };

/**
 * Rows of numbers, as the file names them.
 */
export type Rows = "full" | "motoring" | "table" | "load";

/**
 * Where a set is.
 */
export type SetGrip = { 
/**
 * Its id.
 */
id: string, 
/**
 * All that is drawn of it.
 */
area: Area, 
/**
 * Whether it is drawn turned round; nothing for what looks the same then.
 */
turned: boolean | null, };

/**
 * A set or a pair.
 */
export type SetSheet = { id: string, label: string, 
/**
 * Its kind in words.
 */
kind: string, 
/**
 * Its members; the housing that a pair stands in is none.
 */
members: Array<MemberSheet>, 
/**
 * Its gears and the steps of its pinions, from the middle outwards.
 */
gears: Array<GearSheet>, 
/**
 * How many pinions stand around the axis, where it has some.
 */
count: number | null, 
/**
 * Whether the second gear of a pair is internal; nothing for a set.
 */
internal: boolean | null, 
/**
 * The rules that its teeth do not keep.
 */
warnings: Array<string>, 
/**
 * Where there are some, the nearest tooth counts that keep all, in the order of the gears.
 */
nearest: Array<number> | null, };

/**
 * The teeth of a set, and how many pinions it has.
 */
export type SetTeeth = { 
/**
 * Its id.
 */
set: string, 
/**
 * Its tooth counts, from the middle outwards.
 */
teeth: Array<Teeth>, 
/**
 * How many pinions stand around the axis; a pair of gears has none.
 */
pinions?: PinionCount, };

/**
 * Everything that is set and stays set.
 */
export type Settings = { 
/**
 * The colours.
 */
palette: "light" | "dark" | "contrast" | "dark-contrast", 
/**
 * Canvas pixels to a CSS pixel.
 */
scale: number, 
/**
 * CSS pixels that there are for the half-section and the levers.
 */
width: number, 
/**
 * Whether two sets that share two shafts are drawn as one lever.
 */
merged: boolean, 
/**
 * Whether all gears of the half-section are drawn with one module, each set else filling the room.
 */
one_module: boolean, 
/**
 * How fast the drawings turn, as a share of the full rate; 0 stands still.
 */
rate: number, 
/**
 * Whether the half-section shows power by the width of its lines.
 */
power: boolean, 
/**
 * Input speed in rev/min.
 */
speed: number, 
/**
 * Input torque in N·m.
 */
torque: number, 
/**
 * The unit that drawings letter speeds in: `rev/min` or `rad/s`.
 */
speed_unit: string, 
/**
 * The unit that drawings letter torques in: `N·m` or `lbf·ft`.
 */
torque_unit: string, 
/**
 * Efficiency of every mesh, above 0 and at most 1.
 */
mesh: number, 
/**
 * Drag of each open clutch or brake, in N·m at 1000 rev/min of slip.
 */
drag: number, 
/**
 * Whether the load drives the input.
 */
coasting: boolean, 
/**
 * Pedal position, 0 released to 1 full.
 */
pedal: number, 
/**
 * Slope of the road as rise over run; negative downhill.
 */
grade: number, 
/**
 * Whether the lock-up clutch of the converter is applied.
 */
lockup: boolean, };

/**
 * A shaft's speed.
 */
export type ShaftReport = { 
/**
 * Its id.
 */
id: string, 
/**
 * What people call it.
 */
label: string, 
/**
 * Per input turn.
 */
speed: Exact | null, };

/**
 * A member's part of the power that goes into its set.
 */
export type ShareReport = { 
/**
 * Index among the members.
 */
member: number, 
/**
 * Its part.
 */
share: Exact, };

/**
 * What of a train can be changed, beside what its description says.
 */
export type Sheet = { 
/**
 * What the housing is called instead of its name, or nothing.
 */
housing: string, 
/**
 * The sets and pairs, in order along the axis.
 */
sets: Array<SetSheet>, 
/**
 * The brakes and clutches.
 */
elements: Array<ElementSheet>, 
/**
 * How many edits can be taken back.
 */
undo: number, 
/**
 * How many can be made again.
 */
redo: number, };

/**
 * The story of a shift.
 */
export type Shift = { 
/**
 * What is told, in order.
 */
steps: Array<ShiftStep>, 
/**
 * Every shaft.
 */
shafts: Array<ShiftRow>, };

/**
 * What becomes of the speed of a shaft.
 */
export type ShiftRow = { 
/**
 * Its id.
 */
id: string, 
/**
 * What people call it.
 */
label: string, 
/**
 * Before, per input turn.
 */
before: Exact | null, 
/**
 * After.
 */
after: Exact | null, 
/**
 * After less before.
 */
difference: Exact | null, 
/**
 * What that is, in a word or two.
 */
words: string, };

/**
 * One thing that is told of a shift.
 */
export type ShiftStep = { 
/**
 * The sentence.
 */
sentence: string, 
/**
 * Ids of the elements it is about.
 */
elements: Array<string>, 
/**
 * Ids of the shafts it is about.
 */
shafts: Array<string>, };

/**
 * What shifts a train has.
 */
export type Shifts = { 
/**
 * How many combinations drive with nothing to spare, or are named.
 */
combinations: number, 
/**
 * The shifts between named ranges that drive, in the order of the ranges.
 */
shifts: Array<RangeShift>, };

/**
 * An applied element.
 */
export type SourcesElement = { 
/**
 * Its id.
 */
id: string, 
/**
 * What people call it.
 */
label: string, 
/**
 * N·m from its first end to its second; `null` where nothing decides it.
 */
torque: number | null, };

/**
 * A part of a sum: a factor, and of what.
 */
export type SourcesPart = { 
/**
 * Not zero.
 */
factor: Exact, 
/**
 * What people call what is given.
 */
label: string, };

/**
 * A port.
 */
export type SourcesPort = { 
/**
 * What stands there.
 */
role: "input" | "source" | "output" | "further", 
/**
 * Id of its shaft.
 */
shaft: string, 
/**
 * What people call it.
 */
label: string, 
/**
 * What kind of source it is; an output is none.
 */
kind: "engine" | "motor" | null, 
/**
 * Highest speed in rev/min.
 */
mostSpeed: number | null, 
/**
 * Greatest torque in N·m.
 */
mostTorque: number | null, 
/**
 * Greatest power in W.
 */
mostPower: number | null, 
/**
 * Efficiency of a motor.
 */
efficiency: number | null, 
/**
 * Which of these are assumed: `speed`, `torque`, `efficiency`.
 */
assumed: Array<string>, 
/**
 * rev/min.
 */
speed: number, 
/**
 * N·m on the train from outside.
 */
torque: number, 
/**
 * W, positive where it feeds the train.
 */
power: number, 
/**
 * Whether it feeds the train, is fed, stands still, or carries no torque.
 */
does: "feeds" | "fed" | "still" | "idle", 
/**
 * Which limits it is beyond: `speed`, `torque`, `power`.
 */
beyond: Array<string>, 
/**
 * Whether its torque is given.
 */
given: boolean, 
/**
 * Its torque in those that are given.
 */
formula: Array<SourcesPart>, };

/**
 * What the output can do within all limits.
 */
export type SourcesRegion = { 
/**
 * Speed of the output in rev/min, least and most torque that it delivers in N·m.
 */
edges: Array<[number, number, number]>, 
/**
 * Why there is none.
 */
refused: "held" | "free" | "too-fast" | "empty" | "unlimited" | null, 
/**
 * Whom that is about.
 */
about: string | null, };

/**
 * A shaft.
 */
export type SourcesShaft = { 
/**
 * Its id.
 */
id: string, 
/**
 * What people call it, with what stands at it.
 */
label: string, 
/**
 * rev/min.
 */
speed: number, 
/**
 * Whether it is kept at its speed.
 */
kept: boolean, 
/**
 * Whether its speed is one of those that decide the others.
 */
given: boolean, 
/**
 * Whether it can be turned while those that are kept stay.
 */
moves: boolean, 
/**
 * What people call those that decide it where it cannot be turned; none where it is held.
 */
decidedBy: Array<string>, 
/**
 * What the shaft itself is called.
 */
name: string, 
/**
 * Its speed in those that are given; nothing where it is held.
 */
formula: Array<SourcesPart>, };

/**
 * The shares at one ratio.
 */
export type SourcesShare = { 
/**
 * Output speed over input speed.
 */
ratio: number, 
/**
 * Power of each port over that of the input.
 */
powers: Array<number>, 
/**
 * Power at the outputs over that of the input, where motors balance each other.
 */
efficiency: number | null, };

/**
 * Shares of power over the ratio of output to input speed.
 */
export type SourcesShares = { 
/**
 * In order of their ratios.
 */
points: Array<SourcesShare>, 
/**
 * Whether motors balance each other without a battery.
 */
balanced: boolean, 
/**
 * Why there are none.
 */
refused: "freedom" | "torques" | "idle" | null, };

/**
 * How a train stands.
 */
export type SourcesStand = { 
/**
 * How many speeds can be chosen.
 */
freedom: number, 
/**
 * The input, further sources, the output, further outputs.
 */
ports: Array<SourcesPort>, 
/**
 * All shafts.
 */
shafts: Array<SourcesShaft>, 
/**
 * The applied elements that carry a torque that is decided, and those of which none is.
 */
elements: Array<SourcesElement>, 
/**
 * At which ratios of output to input speed ports stand still.
 */
standstills: Array<SourcesStandstill>, 
/**
 * Whether the motors balance each other; `null` where they cannot.
 */
balanced: boolean | null, 
/**
 * Electric power in W that all motors take together, less what they give.
 */
electric: number, 
/**
 * Most power in W that a battery gives; `null` without a limit.
 */
battery: number | null, 
/**
 * Speeds in rev/min and torques in N·m can be set as far as this.
 */
most: number, };

/**
 * A ratio at which a port stands still.
 */
export type SourcesStandstill = { 
/**
 * What people call it.
 */
label: string, 
/**
 * Output speed over input speed.
 */
ratio: Exact, 
/**
 * Whether it is a motor, so that no power goes through it there.
 */
motor: boolean, };

/**
 * Size of the stage for an available width, in CSS pixels.
 */
export type StageSize = { 
/**
 * Width of both drawings; more than what is available where a train needs it.
 */
width: number, 
/**
 * Height of the half-section drawing.
 */
sectionHeight: number, 
/**
 * Height of the lever diagram.
 */
leverHeight: number, 
/**
 * Whether all gears were to have one module and some are drawn larger, as the half-section would
 * be too high.
 */
outOfScale: boolean, };

/**
 * Where a combination stands, to be pointed at.
 */
export type SwapPlace = { 
/**
 * Which it is.
 */
node: ChainNode, 
/**
 * Left edge in CSS pixels.
 */
left: number, 
/**
 * Upper edge.
 */
top: number, 
/**
 * Width.
 */
width: number, 
/**
 * Height.
 */
height: number, };

/**
 * The drawing as the page has to know it.
 */
export type SwapPlaces = { 
/**
 * Its height in CSS pixels.
 */
height: number, 
/**
 * The combinations that are shown, in the order of their ratios.
 */
places: Array<SwapPlace>, 
/**
 * Whether not all are.
 */
some: boolean, 
/**
 * Whether all could be.
 */
can_be_all: boolean, };

/**
 * What a file has of a task: its kind and what that needs.
 */
export type TaskText = { 
/**
 * The name of its kind.
 */
task: TaskKind, 
/**
 * Id of a range.
 */
range?: string, 
/**
 * Id of a set.
 */
set?: string, 
/**
 * Id of a shaft.
 */
shaft?: string, 
/**
 * What is asked for of members.
 */
part?: string, 
/**
 * A ratio, exactly.
 */
ratio?: string, 
/**
 * How many are applied.
 */
applied?: number, 
/**
 * Combinations to choose from.
 */
among?: Array<Array<string>>, 
/**
 * What a fault is drawn from.
 */
seed?: number, 
/**
 * Ids of ranges.
 */
ranges?: Array<string>, };

/**
 * A tooth count, from 6 to 999.
 */
export type Teeth = number;

/**
 * A problem of a text, and where in the text it is: both from 1, columns as browsers count letters.
 */
export type TextProblem = { place: string, problem: string, fix: string, line: number, column: number, };

/**
 * Where an element fights the others.
 */
export type TimedBind = { 
/**
 * Id of the element.
 */
element: string, 
/**
 * From, in seconds.
 */
begin: number, 
/**
 * To, in seconds.
 */
end: number, };

/**
 * What is commanded of one element.
 */
export type TimedCommand = { 
/**
 * Id of the element.
 */
element: string, 
/**
 * Whether it is applied; otherwise it is released.
 */
applies: boolean, 
/**
 * When, in seconds.
 */
at: number, 
/**
 * For how long it is filled before its capacity rises, in seconds.
 */
fill: number, 
/**
 * How long its ramp takes, in seconds.
 */
ramp: number, };

/**
 * A phase of a shift.
 */
export type TimedPhase = { 
/**
 * `before`, `fill`, `torque`, `inertia` or `after`.
 */
phase: string, 
/**
 * From, in seconds.
 */
begin: number, 
/**
 * To, in seconds.
 */
end: number, };

/**
 * What the page has to know of the drawing.
 */
export type TimedPlaces = { 
/**
 * Its height in CSS pixels.
 */
height: number, 
/**
 * Where time 0 stands, to the right.
 */
left: number, 
/**
 * Where the end of the time stands.
 */
right: number, 
/**
 * Where strips begin, down.
 */
top: number, 
/**
 * Where they end.
 */
bottom: number, 
/**
 * What can be taken hold of, in the order of the commands: begin and end of each ramp, then of what engine torque is
 * taken back.
 */
grips: Array<[[number, number], [number, number]]>, };

/**
 * What is commanded in a shift, and what is assumed of the train.
 */
export type TimedPlan = { 
/**
 * One for each element that is released or applied.
 */
commands: Array<TimedCommand>, 
/**
 * Where engine torque is taken back: from, to, and which part; `null` where it is not.
 */
cut: [number, number, number] | null, 
/**
 * When the reckoning ends, in seconds.
 */
until: number, 
/**
 * Speed of the input at the start in rev/min.
 */
input_speed: number, 
/**
 * Torque at the input in N·m.
 */
input_torque: number, 
/**
 * Torque from outside at the output in N·m, negative where it resists.
 */
output_torque: number, 
/**
 * A flare of less rev/min is slight.
 */
slight_flare: number, 
/**
 * A tie-up with less N·m is slight.
 */
slight_bind: number, 
/**
 * Inertias in kg·m²: of the engine, of what the output drives, and then of each shaft.
 */
inertias: Array<TimedValue>, 
/**
 * Of each element its torque at full command in N·m.
 */
full_torques: Array<TimedValue>, 
/**
 * Of each element its fill time in seconds.
 */
fill_times: Array<TimedValue>, };

/**
 * What can be read of a shift at one time.
 */
export type TimedReading = { 
/**
 * `before`, `fill`, `torque`, `inertia`, `after`; `null` where there are no phases.
 */
phase: string | null, 
/**
 * Speed of each shaft in rev/min.
 */
speeds: Array<number>, 
/**
 * Torque in N·m that each element passes from its first end to its second.
 */
torques: Array<number>, 
/**
 * `open`, `holds` or `slips`, of each element.
 */
modes: ("open" | "holds" | "slips")[], 
/**
 * Torque that the train puts on what its output drives, in N·m.
 */
output: number, 
/**
 * Power that all elements make heat, in W.
 */
slip_power: number, };

/**
 * How a shift goes, and what it costs.
 */
export type TimedShiftReport = { 
/**
 * When all that is to hold does, for good, in seconds; `null` where that does not come about.
 */
settled_at: number | null, 
/**
 * From the first command to that.
 */
duration: number | null, 
/**
 * The elements that slip under torque, or are commanded.
 */
elements: Array<TimedSlip>, 
/**
 * Torque that the train puts on what its output drives, in N·m: at the start.
 */
output_before: number, 
/**
 * At the end.
 */
output_after: number, 
/**
 * The least of it as seen in the direction it has at the start.
 */
output_least: number, 
/**
 * How far that is below the lesser of both.
 */
drop: number, 
/**
 * The greatest jerk at the output in rad/s³.
 */
jerk: number, 
/**
 * Energies in J: put in at the input,
 */
input: number, 
/**
 * taken at the output,
 */
output: number, 
/**
 * more in turning masses than before,
 */
stored: number, 
/**
 * and made heat.
 */
heat: number, 
/**
 * The phases, in order.
 */
phases: Array<TimedPhase>, 
/**
 * Where the input runs away: from and to, in seconds.
 */
flares: Array<[number, number]>, 
/**
 * By how much at most, in rev/min.
 */
flare: number, 
/**
 * Where elements fight.
 */
binds: Array<TimedBind>, 
/**
 * With how much at most, in N·m.
 */
bind: number, };

/**
 * What slipping costs one element.
 */
export type TimedSlip = { 
/**
 * Id of the element.
 */
element: string, 
/**
 * Heat in J.
 */
heat: number, 
/**
 * Greatest power made heat, in W.
 */
peak_power: number, 
/**
 * For how long, in seconds.
 */
slip_time: number, };

/**
 * A value, and whether it is assumed.
 */
export type TimedValue = { 
/**
 * The value.
 */
value: number, 
/**
 * Whether it is assumed, as the file does not say.
 */
assumed: boolean, };

/**
 * A rule that tooth counts must keep.
 */
export type ToothRule = "coaxial" | "equal-spacing" | "neighbours-clear" | "fewest-teeth";

/**
 * What ranges pull with and how they speed up. Road speeds in m/s and forces in N, both without sign; engine and input in
 * rev/min and N·m.
 */
export type Traction = { 
/**
 * The ranges of the file, in its order.
 */
ranges: Array<TractionRange>, 
/**
 * Ids of the forward ranges that pull, by falling ratio; of those with one ratio the first.
 */
order: Array<string>, 
/**
 * The engine's lowest and last speed.
 */
engine: [number, number], 
/**
 * Id of the range that goes fastest on the level.
 */
fastest: string | null, 
/**
 * The run from rest; none where there is none.
 */
run: TractionRun | null, 
/**
 * Why there is none, as a sentence.
 */
noRun: string | null, 
/**
 * Mass in kg by the file's weight; 0 where it has none.
 */
mass: number, 
/**
 * What a file may state of vehicle and engine.
 */
stated: Array<TractionStated>, 
/**
 * What is assumed, as the file does not say.
 */
assumed: Array<TractionAssumed>, 
/**
 * What is wrong with what the file says; it is assumed instead.
 */
problems: Array<TractionProblem>, };

/**
 * A value that is assumed.
 */
export type TractionAssumed = { 
/**
 * `wheel-radius` in m, `final-drive`, `engine-inertia`, `shaft-inertia` or `load-inertia` in kg·m².
 */
what: string, 
/**
 * The value.
 */
value: number, };

/**
 * A shift of a run.
 */
export type TractionChange = { 
/**
 * When and how fast.
 */
at: TractionMoment, 
/**
 * Id of the range that is left.
 */
from: string, 
/**
 * Id of the range that follows.
 */
to: string, 
/**
 * In the first.
 */
before: TractionForce, 
/**
 * In the second.
 */
after: TractionForce, 
/**
 * Whether the engine could not have gone on in the first.
 */
atEngineLimit: boolean, };

/**
 * A range at a road speed.
 */
export type TractionForce = { 
/**
 * Road speed.
 */
speed: number, 
/**
 * At the wheels.
 */
force: number, 
/**
 * Of the engine.
 */
engineSpeed: number, 
/**
 * Of the engine.
 */
engineTorque: number, 
/**
 * Of the train's input.
 */
inputSpeed: number, 
/**
 * `nothing`, `slipping` or `converter`: what is between engine and input.
 */
between: "nothing" | "slipping" | "converter", };

/**
 * What a scenario lacks.
 */
export type TractionLack = { 
/**
 * What, as a sentence.
 */
what: string, 
/**
 * How to add it.
 */
fix: string, };

/**
 * A moment of a run.
 */
export type TractionMoment = { 
/**
 * Road speed.
 */
speed: number, 
/**
 * Seconds since the start.
 */
time: number, 
/**
 * Metres since the start.
 */
distance: number, };

/**
 * Where the plots stand at a width.
 */
export type TractionPlaces = { 
/**
 * The height of the drawing.
 */
height: number, 
/**
 * Where road speed 0 stands.
 */
left: number, 
/**
 * Where the highest speed stands.
 */
right: number, 
/**
 * The highest speed in m/s.
 */
fastest: number, };

/**
 * Something that is wrong in a file and does not keep it from being read.
 */
export type TractionProblem = { 
/**
 * Where.
 */
place: string, 
/**
 * What.
 */
what: string, 
/**
 * What would mend it.
 */
fix: string, };

/**
 * A range on the road.
 */
export type TractionRange = { 
/**
 * Its id.
 */
id: string, 
/**
 * What people call it.
 */
label: string, 
/**
 * Why it does not pull, as a sentence; the rest is empty then.
 */
idle: string | null, 
/**
 * Input speed over output speed, negative backward.
 */
ratio: number | null, 
/**
 * Power out over power in of the train.
 */
efficiency: number | null, 
/**
 * Whether a converter is locked up in it; of none it is true.
 */
locked: boolean, 
/**
 * The fastest that it goes on the level.
 */
top: TractionForce | null, 
/**
 * Whether the engine is at its last speed there, with force to spare.
 */
atEngineLimit: boolean, 
/**
 * The steepest slope that it climbs at a speed that it can keep, as rise over run, where it would not lift the whole weight.
 */
slope: number | null, 
/**
 * Whether it would lift the whole weight.
 */
lifts: boolean, 
/**
 * Where it climbs that slope.
 */
climbing: TractionForce | null, };

/**
 * A range at a road speed.
 */
export type TractionRangeReading = { 
/**
 * Its id.
 */
id: string, 
/**
 * What it does.
 */
at: TractionForce, };

/**
 * What pulls at a road speed, and what the road asks there.
 */
export type TractionReading = { 
/**
 * Road speed.
 */
speed: number, 
/**
 * The ranges that the engine runs in at that speed, in the order of the file; without a slipping clutch but in the
 * first and backward.
 */
ranges: Array<TractionRangeReading>, 
/**
 * What the road asks on the level and on each slope that was asked for, in N.
 */
roads: Array<TractionRoadReading>, };

/**
 * A slope at a road speed.
 */
export type TractionRoadReading = { 
/**
 * Rise over run.
 */
slope: number, 
/**
 * In N.
 */
force: number, };

/**
 * A run from rest at full pedal on a level road.
 */
export type TractionRun = { 
/**
 * Id of the range that it begins in.
 */
first: string, 
/**
 * The shifts, in order.
 */
changes: Array<TractionChange>, 
/**
 * The speeds that were asked for and are reached.
 */
targets: Array<TractionMoment>, 
/**
 * The speed that it ends at.
 */
top: number, 
/**
 * Whether the engine is at its last speed there; otherwise force and road are in balance, which takes ever longer.
 */
atEngineLimit: boolean, 
/**
 * The end, or where 99 % of that speed is reached.
 */
last: TractionMoment, };

/**
 * A value that a file may state.
 */
export type TractionStated = { 
/**
 * `wheel-radius` in m, `final-drive`, or `engine-inertia` in kg·m².
 */
what: "wheel-radius" | "final-drive" | "engine-inertia", 
/**
 * The value.
 */
value: number, 
/**
 * Whether it is assumed.
 */
assumed: boolean, };

/**
 * A train as the page needs it to build its controls.
 */
export type TrainInfo = { name: string, about: string, 
/**
 * What the housing is called.
 */
housing: string, input: string, output: string, shafts: Array<Named>, couplings: Array<CouplingInfo>, elements: Array<ElementInfo>, ranges: Array<RangeInfo>, warnings: Array<WarningReport>, 
/**
 * Whether any two levers can be joined in one.
 */
joinable: boolean, 
/**
 * What the half-section shows that cannot be built.
 */
caution: string | null, 
/**
 * Whether shafts cross in it that need not: the whole engine may draw them otherwise.
 */
needless: boolean, 
/**
 * Whether any clutch or brake has friction data.
 */
friction: boolean, 
/**
 * Labels of what stands around the train.
 */
engine: string | null, converter: string | null, load: string | null, };

/**
 * A range that is tried.
 */
export type Trial = { 
/**
 * Its id; `null` for all clutches and brakes released.
 */
id: string | null, 
/**
 * What people call it.
 */
label: string | null, 
/**
 * Ids of what it applies.
 */
applied: Array<string>, 
/**
 * `drives`, `neutral`, `output-held`, `tied-up` or `undecided`.
 */
does: "drives" | "neutral" | "output-held" | "tied-up" | "undecided", 
/**
 * Input speed over output speed.
 */
ratio: Exact | null, 
/**
 * Whether it holds the output back when the load drives.
 */
brakes: boolean, };

/**
 * A walk through the power flow of a combination.
 */
export type Walk = { 
/**
 * Its steps, in order.
 */
steps: Array<WalkStep>, };

/**
 * What a member does in its set.
 */
export type WalkPart = { 
/**
 * What people call its set.
 */
set: string, 
/**
 * `sun`, `ring`, `carrier`…
 */
role: string, 
/**
 * Id of its shaft; `null` for the housing.
 */
shaft: string | null, 
/**
 * What it does, in a word or two.
 */
part: string, 
/**
 * Per input turn.
 */
speed: Exact | null, 
/**
 * On the set, per unit of input torque.
 */
torque: Exact | null, };

/**
 * One step.
 */
export type WalkStep = { 
/**
 * What is said, in sentences.
 */
sentences: Array<string>, 
/**
 * Ids of the shafts it is about.
 */
shafts: Array<string>, 
/**
 * Ids of the elements it is about.
 */
elements: Array<string>, 
/**
 * Ids of the shafts whose speeds are known once it is told.
 */
known: Array<string>, 
/**
 * What each member of the sets that it is about does; empty where it is about something else.
 */
parts: Array<WalkPart>, };

/**
 * A wanted ratio of a range.
 */
export type Wanted = { 
/**
 * Id of the range.
 */
range: string, 
/**
 * Its ratio, input over output speed; below zero where the output turns backward. Left out, the range only has
 * its place among the steps, and drives as it does with the teeth that the train has: forward, or backward.
 */
ratio?: number, 
/**
 * How far it may be off, as a part of the ratio; [`TOLERANCE`] where it is left out.
 */
tolerance?: number, 
/**
 * Least efficiency of this range, with the usual loss of each mesh ([`crate::MESH_EFFICIENCY`]).
 */
efficiency?: number, };

/**
 * A wanted ratio.
 */
export type WantedRatio = { 
/**
 * Input over output speed, below zero for a backward range; left out, any will do.
 */
ratio?: number, 
/**
 * How far it may be off, as a part of it; [`TOLERANCE`] where it is left out.
 */
tolerance?: number, 
/**
 * Least efficiency of this range.
 */
efficiency?: number, };

/**
 * A tooth rule that a coupling does not satisfy.
 */
export type WarningReport = { 
/**
 * Id of the coupling.
 */
coupling: string, 
/**
 * The rule with its numbers, as a sentence.
 */
text: string, };

/**
 * A direction of turning, relative to the input's.
 */
export type Way = "forward" | "backward";

/**
 * The formula of a ratio and the speed equations it comes from.
 */
export type Working = { 
/**
 * The ratio in tooth symbols; `null` when there is none to give.
 */
ratio: Formula | null, 
/**
 * Why there is none to give: `no-ratio`, `only-these-teeth` or `too-long`.
 */
noFormula: "no-ratio" | "only-these-teeth" | "too-long" | null, 
/**
 * The speed equation of each mesh row.
 */
equations: Array<EquationReport>, };

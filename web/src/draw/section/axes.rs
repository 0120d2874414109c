//! The axes that shafts turn about: the main one, and parallel ones that gear pairs lead to.
//!
//! A file does not say where axes lie, its teeth do: gears of one module that mesh are half the sum
//! of their teeth apart. All axes are drawn in one plane. From the main axis, that of most sets, a
//! pair leads to an axis above it, and the next one back towards it.

use levertrain_core::coupling::Coupling;
use levertrain_core::{Body, Train};

use super::circles::radius;
use super::parts::Part;
use super::plan::{PackPlace, Plan};

/// Two distances that differ by a smaller share than this are one: profile shift makes up for it.
const SHIFT: f64 = 0.06;

/// Which axis each shaft turns about.
#[derive(Debug, Clone)]
pub struct Axes {
    /// For each shaft, the least shaft that turns about the same axis.
    of: Vec<usize>,
    main: usize,
    /// For each axis that a pair leads to, how: nearest to the main axis first.
    pub ways: Vec<Way>,
}

/// The pair through which an axis is reached.
#[derive(Debug, Clone, Copy)]
pub struct Way {
    /// The pair.
    pub coupling: usize,
    /// Index among its members of the gear on the axis that is nearer to the main one.
    pub near: usize,
    /// That of its other gear.
    pub far: usize,
    /// The axis of the other gear.
    pub axis: usize,
    /// Whether the other gear lies above.
    pub above: bool,
    /// How far that axis is above the main one, in modules.
    distance: f64,
    /// Whether it is the main one after all: the pair leads as far back as others led away.
    returns: bool,
}

impl Way {
    /// Whether it leads back to the main axis.
    pub fn returns(&self) -> bool {
        self.returns
    }
}

impl Axes {
    /// The axes of a train.
    pub fn of(train: &Train) -> Self {
        let scenario = train.scenario();
        let mut of: Vec<usize> = (0..scenario.shafts.len()).collect();
        let sets = (0..scenario.couplings.len()).filter(|&at| is_set(&scenario.couplings[at]));
        let sets: Vec<&[Body]> = sets.map(|at| train.members(at)).collect();
        for bodies in &sets {
            join(&mut of, bodies);
        }
        for element in 0..scenario.elements.len() {
            join(&mut of, &train.ends(element));
        }
        // That of most sets, or of the input where others have no more.
        let on = |axis: usize| {
            let has = |bodies: &&&[Body]| {
                let mut shafts = bodies.iter().filter_map(shaft);
                shafts.next().is_some_and(|shaft| of[shaft] == axis)
            };
            sets.iter().filter(has).count()
        };
        let mut main = of[train.input()];
        for axis in 0..of.len() {
            if on(axis) > on(main) {
                main = axis;
            }
        }
        let ways = ways(train, &of, main);
        Self { of, main, ways }
    }

    /// The axis of a body; parts of the housing are on the main one.
    pub fn of_body(&self, body: Body) -> usize {
        shaft(&body).map_or(self.main, |shaft| self.of[shaft])
    }

    /// Whether a body turns above the main axis.
    pub fn is_above(&self, body: Body) -> bool {
        let axis = self.of_body(body);
        let mut ways = self.ways.iter();
        ways.any(|way| way.axis == axis && way.above)
    }

    /// Draws each shaft that turns about an axis of its own, and has nothing but gears of pairs on
    /// it, as one straight line along its row, unless something is in its way; whether it is so of
    /// each shaft.
    pub fn straighten(&self, plan: &mut Plan, train: &Train) -> Vec<bool> {
        let shafts = 0..train.scenario().shafts.len();
        shafts
            .map(|shaft| {
                let run = self.straight(plan, train, shaft);
                let Some((row, from, to)) = run else {
                    return false;
                };
                let grid = plan.grid;
                let node = |column: usize| grid.node(column, row);
                // Within a gear there is no line.
                let of_own = |column: usize| owns(plan, shaft, grid.set_at(column));
                let outside = |column: &usize| {
                    let within = [*column, column + 1].map(|c| grid.in_set(c) && of_own(c));
                    within != [true, true]
                };
                let steps = (from..to).filter(outside);
                plan.runs[shaft] = steps.map(|at| (node(at), node(at + 1))).collect();
                for (end, own, column) in [(0, train.input(), from), (1, train.output(), to)] {
                    if own == shaft {
                        plan.ends[end] = node(column);
                    }
                }
                plan.crossings
                    .retain(|crossing| !crossing.members.contains(&shaft));
                true
            })
            .collect()
    }

    /// The row that a shaft could run along straight, from which column to which.
    fn straight(&self, plan: &Plan, train: &Train, shaft: usize) -> Option<(usize, usize, usize)> {
        let axis = self.of[shaft];
        let shares = self.of.iter().filter(|&&of| of == axis).count() > 1;
        let elements = 0..train.scenario().elements.len();
        let body = Body::Shaft(shaft);
        let returns = self.ways.iter().any(|way| way.axis == axis && way.returns);
        if axis == self.main
            || returns
            || shares
            || elements
                .into_iter()
                .any(|at| train.ends(at).contains(&body))
        {
            return None;
        }
        let grid = plan.grid;
        let own = || plan.parts.iter().filter(|part| part.body == body);
        let nodes: Vec<usize> = own().flat_map(|part| part.nodes(&grid)).collect();
        let mut rows = own().map(|part| grid.row(part.nodes(&grid)[0]));
        let row = rows.next()?;
        if rows.any(|other| other != row) {
            return None;
        }
        let columns = || nodes.iter().map(|&node| grid.column(node));
        let (mut from, mut to) = (columns().min()?, columns().max()?);
        if shaft == train.input() {
            from = 0;
        }
        if shaft == train.output() {
            to = grid.columns() - 1;
        }
        let own_set = |column: usize| owns(plan, shaft, grid.set_at(column));
        let mut between = from..=to;
        let clear = between.all(|column| match grid.in_set(column) {
            true => own_set(column),
            false => is_clear(plan, shaft, column),
        });
        clear.then_some((row, from, to))
    }
}

/// Whether nothing but a shaft is in a column, from the axis to the rings.
fn is_clear(plan: &Plan, shaft: usize, column: usize) -> bool {
    let grid = &plan.grid;
    let inside = |node: usize| grid.column(node) == column && grid.row(node) <= grid.ring_row();
    let others = plan.runs.iter().enumerate();
    let mut steps = others
        .filter(|(other, _)| *other != shaft)
        .flat_map(|(_, run)| run);
    let packed = |pack: &PackPlace| match *pack {
        PackPlace::Clutch { column: left, .. } => (left..left + 3).contains(&column),
        PackPlace::Brake { .. } => false,
    };
    !steps.any(|&(a, b)| inside(a) || inside(b)) && !plan.packs.iter().any(packed)
}

/// Whether a shaft has a gear in a coupling.
fn owns(plan: &Plan, shaft: usize, coupling: usize) -> bool {
    let is_own = |part: &Part| part.coupling == coupling && part.body == Body::Shaft(shaft);
    plan.parts.iter().any(is_own)
}

fn is_set(coupling: &Coupling) -> bool {
    coupling.facts().profile().coaxial
}

fn shaft(body: &Body) -> Option<usize> {
    match body {
        Body::Shaft(shaft) => Some(*shaft),
        Body::Housing => None,
    }
}

/// Puts bodies on one axis.
fn join(of: &mut [usize], bodies: &[Body]) {
    let mut shafts = bodies.iter().filter_map(shaft);
    let Some(first) = shafts.next() else { return };
    for other in shafts {
        let (least, greatest) = (of[first].min(of[other]), of[first].max(of[other]));
        for axis in &mut *of {
            if *axis == greatest {
                *axis = least;
            }
        }
    }
}

/// How each axis is reached from the main one: pair by pair, up and back in turns.
fn ways(train: &Train, of: &[usize], main: usize) -> Vec<Way> {
    let mut ways: Vec<Way> = Vec::new();
    let mut reached = vec![main];
    let mut at = 0;
    while let Some(&axis) = reached.get(at) {
        at += 1;
        let way = ways.iter().find(|way| way.axis == axis);
        let (is_up, from_main) = way.map_or((false, 0.0), |way| (way.above, way.distance));
        for (coupling, kind) in train.scenario().couplings.iter().enumerate() {
            if is_set(kind) {
                continue;
            }
            let bodies = train.members(coupling);
            // Of a pair the second member is its frame.
            for (near, far) in [(0, 2), (2, 0)] {
                let axes = [near, far].map(|member| shaft(&bodies[member]).map(|s| of[s]));
                let [Some(from), Some(to)] = axes else {
                    continue;
                };
                if from != axis || reached.contains(&to) {
                    continue;
                }
                let gears = kind.facts().profile().gears;
                let internal = gears.iter().any(|gear| gear.internal);
                let [own, other] = [near, far].map(|member| radius(&gears[member / 2]));
                let above = is_up == internal;
                let step = match (internal, above) {
                    (true, _) => own - other,
                    (false, true) => own + other,
                    (false, false) => -(own + other),
                };
                ways.push(Way {
                    coupling,
                    near,
                    far,
                    axis: to,
                    above,
                    distance: from_main + step,
                    returns: !internal && !above && agree(from_main, own + other),
                });
                reached.push(to);
            }
        }
    }
    ways
}

/// Whether two distances of axes are one but for profile shift.
fn agree(one: f64, other: f64) -> bool {
    (one - other).abs() <= SHIFT * one.max(other)
}

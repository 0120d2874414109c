//! The plan of a train that was changed: what the change did not touch stays where it was.
//!
//! Shafts, sets and elements are the same where their ids are. The columns of the plan before are found
//! again beside the sets that they stood beside; where a set came between, lines go straight on past it.
//! What has no place yet is put in as in any draft (`draft.rs`), in a few orders, of which the cheapest is
//! taken. Only where shafts cross that did not before is more moved afterwards (`mending.rs`).

use levertrain_core::coupling::Role;
use levertrain_core::{Body, Nesting, Train};

use super::board::Toll;
use super::dice::Dice;
use super::draft::Draft;
use super::grid::{Grid, Node, SET_COLUMNS};
use super::mending::Mending;
use super::parts::{Figure, Side, steps_turned};
use super::plan::{PackPlace, Plan, member};
use super::search::{Sketch, Task};

/// Orders in which what is new is put in.
const ORDERS: usize = 8;

/// The plan of a train by that of the train before, and what may better it where one made from nothing
/// could have fewer shafts cross. Nothing where something finds no place any more.
pub fn plan_after(before: &Plan, old: &Train, train: &Train) -> Option<(Plan, Option<Mending>)> {
    let kept = Kept::of(before, old, train);
    let mut dice = Dice::new();
    let mut tasks = kept.missing.clone();
    let mut best: Option<Sketch> = None;
    // In a large train an order takes long.
    let orders = (kept.sketch.rounds() / 4).clamp(1, ORDERS);
    for order in 0..orders {
        if order > 0 {
            dice.shuffle(&mut tasks);
        }
        let dearest = best
            .as_ref()
            .map_or(u32::MAX, |best| best.cost.saturating_sub(1));
        let tolls = vec![Toll::default(); kept.sketch.gears.grid.sets + 1];
        let missing = |task| kept.missing.contains(&task) && !kept.begun.contains(&task);
        let draft = Draft::without(&kept.sketch, train, tolls, missing);
        best = draft.finish(&tasks, dearest).or(best);
    }
    let best = best?;
    let fewest = match train.nesting() {
        Nesting::Nests => 0,
        Nesting::Crosses | Nesting::Undecided => before.crossings.len().max(1),
    };
    let plan = best.clone().whole()?;
    let mending = (best.crossings.len() > fewest).then(|| Mending::of(best, fewest, train));
    Some((plan, mending))
}

/// What is left of a plan when the train has changed.
struct Kept {
    sketch: Sketch,
    /// What must be placed or joined.
    missing: Vec<Task>,
    /// The shafts among it of which some runs are left.
    begun: Vec<Task>,
}

impl Kept {
    fn of(before: &Plan, old: &Train, train: &Train) -> Self {
        let map = Map::of(before, old, train);
        let mut sketch = Sketch::on(train, map.to, &map.turned);
        let mut used = Used::of(&sketch);
        let shafts = train.scenario().shafts.len();
        let mut missing = Vec::new();

        // What holds parts to the housing is kept as a whole, and brakes within them with it, or nothing of it.
        let runs = before.runs.last().and_then(|runs| map.runs(runs));
        let runs = runs.filter(|runs| used.lay(runs, shafts, &map.to));
        let is_held = runs.is_some();
        sketch.runs[shafts] = runs.unwrap_or_default();

        let elements = train.scenario().elements.iter().enumerate();
        for (index, element) in elements {
            let place = old
                .element(element.id())
                .filter(|&known| {
                    let within =
                        before.packs[known].is_flat() && train.ends(index).contains(&Body::Housing);
                    let known = &old.scenario().elements[known];
                    // Left to the drawing again it finds a new place.
                    let free = known.gap().is_some() && element.gap().is_none();
                    known.ends() == element.ends() && !free && (is_held || !within)
                })
                .and_then(|known| map.pack(before.packs[known]));
            let grid = map.to;
            let fits = |place: &PackPlace| {
                let chosen = element.gap().is_none_or(|gap| {
                    let column = place.first_column();
                    !grid.in_set(column) && grid.set_at(column) == gap as usize
                });
                chosen
                    && place
                        .nodes(&grid)
                        .iter()
                        .all(|&node| used.is_free(node, shafts))
            };
            sketch.packs[index] = place.filter(fits);
            match sketch.packs[index] {
                Some(place) => {
                    let ends = train.ends(index).map(|end| member(end, train));
                    used.take_pack(place, ends, &grid);
                }
                None => missing.push(Task::Element(index)),
            }
        }
        for (part, own) in sketch.gears.parts.iter().enumerate() {
            if own.body != Body::Housing {
                continue;
            }
            // The column of its support, if it was held before.
            let held = before.parts.iter();
            let held = held.filter(|known| is_held && known.body == Body::Housing);
            let column = held.zip(&before.supports).find_map(|(known, &column)| {
                let same = map.sets[own.coupling] == Some(known.coupling);
                map.column(column)
                    .filter(|_| same && known.member == own.member)
            });
            sketch.supports[part] = column;
            if column.is_none() {
                missing.push(Task::Support(part));
            }
        }
        let mut begun = Vec::new();
        for (shaft, known) in train.scenario().shafts.iter().enumerate() {
            let known = shaft_of(old, &known.id);
            let runs = known.and_then(|known| map.runs(&before.runs[known]));
            let runs = runs.filter(|runs| used.lay(runs, shaft, &map.to));
            if let Some(runs) = runs {
                sketch.runs[shaft] = runs;
                begun.push(Task::Shaft(shaft));
            }
            missing.push(Task::Shaft(shaft));
        }
        for (end, [now, then]) in [[train.input(), old.input()], [train.output(), old.output()]]
            .into_iter()
            .enumerate()
        {
            let ids =
                [(train, now), (old, then)].map(|(train, at)| &train.scenario().shafts[at].id);
            let same = ids[0] == ids[1] && !sketch.runs[now].is_empty();
            let last = [0, map.to.columns() - 1][end];
            let node = map
                .node(before.ends[end])
                .filter(|&node| same && map.to.column(node) == last);
            sketch.ends[end] = node;
        }
        Self {
            sketch,
            missing,
            begun,
        }
    }
}

/// From the grid of one plan to that of the next.
struct Map {
    from: Grid,
    to: Grid,
    /// Of each set which it was.
    sets: Vec<Option<usize>>,
    turned: Vec<bool>,
    /// Of each column before where it is.
    columns: Vec<Option<usize>>,
}

impl Map {
    fn of(before: &Plan, old: &Train, train: &Train) -> Self {
        let from = before.grid;
        let couplings = &train.scenario().couplings;
        let known = &old.scenario().couplings;
        let sets: Vec<Option<usize>> = couplings
            .iter()
            .map(|set| {
                let same = known
                    .iter()
                    .position(|known| known.facts().id() == set.facts().id());
                same.filter(|&known_at| {
                    std::mem::discriminant(&known[known_at]) == std::mem::discriminant(set)
                })
            })
            .collect();
        let turned = couplings.iter().zip(&sets).map(|(set, known)| {
            let was = known.and_then(|known| was_turned(before, old, known));
            set.facts().turned().or(was).unwrap_or(false)
        });
        let turned: Vec<bool> = turned.collect();
        let to = Grid {
            sets: couplings.len(),
            ..from
        };
        let mut columns = vec![None; from.columns()];
        let mut put = |before: usize, after: usize, count: usize| {
            for step in 0..count {
                columns[before + step] = Some(after + step);
            }
        };
        // A room is found again after the set that it came after, the first before all.
        put(0, 0, from.gap_columns);
        for (now, then) in sets.iter().enumerate() {
            if let Some(then) = *then {
                put(from.set_start(then), to.set_start(now), SET_COLUMNS);
                put(
                    from.gap_start(then + 1),
                    to.gap_start(now + 1),
                    from.gap_columns,
                );
            }
        }
        Self {
            from,
            to,
            sets,
            turned,
            columns,
        }
    }

    fn column(&self, column: usize) -> Option<usize> {
        self.columns.get(column).copied().flatten()
    }

    fn node(&self, node: Node) -> Option<Node> {
        let column = self.column(self.from.column(node))?;
        Some(self.to.node(column, self.from.row(node)))
    }

    fn pack(&self, place: PackPlace) -> Option<PackPlace> {
        Some(match place {
            PackPlace::Brake { column } => PackPlace::Brake {
                column: self.column(column)?,
            },
            PackPlace::Clutch {
                column,
                row,
                flipped,
            } => PackPlace::Clutch {
                column: self.column(column)?,
                row,
                flipped,
            },
        })
    }

    /// The steps of a member where they lead now, straight on past what came between; nothing where one
    /// of them leads through a set, back, or nowhere.
    fn runs(&self, runs: &[(Node, Node)]) -> Option<Vec<(Node, Node)>> {
        let mut found = Vec::new();
        for &(a, b) in runs {
            let (first, last) = (self.node(a)?, self.node(b)?);
            let [from, to] = [first, last].map(|node| self.to.column(node));
            if from.abs_diff(to) <= 1 {
                found.push((first, last));
                continue;
            }
            let row = self.to.row(first);
            let is_free = row < self.to.sun_row() || row > self.to.ring_row();
            let forward = self.from.column(a) < self.from.column(b);
            if !is_free || forward != (from < to) || row == self.to.brake_row() {
                return None;
            }
            let mut at = from;
            while at != to {
                let next = if forward { at + 1 } else { at - 1 };
                found.push((self.to.node(at, row), self.to.node(next, row)));
                at = next;
            }
        }
        Some(found)
    }
}

/// Whether a set with two suns or steps is drawn turned round; nothing for one that looks the same then.
pub fn was_turned(plan: &Plan, train: &Train, coupling: usize) -> Option<bool> {
    let facts = train.scenario().couplings[coupling].facts();
    let members = facts.members();
    let mut roles = members.iter();
    let first = roles.position(|member| matches!(member.role, Role::SmallSun | Role::FirstSun));
    let figure = plan.figures[coupling];
    let Some(first) = first else {
        let stepped = matches!(figure, Figure::Stepped { .. });
        return stepped.then(|| steps_turned(&facts.profile(), figure));
    };
    let mut parts = plan.parts.iter();
    let part = parts.find(|part| part.coupling == coupling && part.member == first)?;
    Some(part.side == Side::Right)
}

/// Who is at each node of the grid, along its row and across it.
struct Used {
    nodes: Vec<[Option<usize>; 2]>,
}

/// What nobody runs through.
const WALL: usize = usize::MAX;

impl Used {
    fn of(sketch: &Sketch) -> Self {
        let grid = sketch.gears.grid;
        let mut used = Self {
            nodes: vec![[None; 2]; grid.nodes()],
        };
        for set in 0..grid.sets {
            for row in grid.sun_row()..=grid.ring_row() {
                for column in 0..SET_COLUMNS {
                    used.take(grid.node(grid.set_start(set) + column, row), WALL);
                }
            }
        }
        for (member, pieces) in sketch.gears.pieces.iter().enumerate() {
            for node in pieces.iter().flat_map(|piece| piece.all()) {
                used.take(node, member);
            }
        }
        used
    }

    /// Whether nobody is at a node but a member whose place it is.
    fn is_free(&self, node: Node, member: usize) -> bool {
        self.nodes[node]
            .iter()
            .all(|at| at.is_none_or(|at| at == member))
    }

    fn take(&mut self, node: Node, member: usize) {
        self.nodes[node] = [Some(member); 2];
    }

    fn take_pack(&mut self, place: PackPlace, [first, second]: [usize; 2], grid: &Grid) {
        match place {
            PackPlace::Brake { column } => {
                self.take(grid.node(column, grid.brake_row()), first.min(second));
            }
            PackPlace::Clutch {
                column,
                row,
                flipped,
            } => {
                let (left, right) = if flipped {
                    (second, first)
                } else {
                    (first, second)
                };
                self.take(grid.node(column, row), left);
                self.take(grid.node(column + 1, row), WALL);
                self.take(grid.node(column + 2, row), right);
            }
        }
    }

    /// Lays the steps of a member, unless another is in the way; crossing one is allowed.
    fn lay(&mut self, runs: &[(Node, Node)], member: usize, grid: &Grid) -> bool {
        let ways = |&(a, b): &(Node, Node)| {
            let across = usize::from(grid.row(a) != grid.row(b));
            [(a, across), (b, across)]
        };
        let free = |(node, way): (Node, usize)| {
            let own = |at: Option<usize>| at.is_none_or(|at| at == member);
            // A bend takes all of a node.
            own(self.nodes[node][way]) && self.nodes[node][1 - way] != Some(WALL)
        };
        if !runs.iter().flat_map(ways).all(free) {
            return false;
        }
        for (node, way) in runs.iter().flat_map(ways) {
            self.nodes[node][way] = Some(member);
        }
        true
    }
}

fn shaft_of(train: &Train, id: &str) -> Option<usize> {
    let shafts = &train.scenario().shafts;
    shafts.iter().position(|shaft| shaft.id == id)
}

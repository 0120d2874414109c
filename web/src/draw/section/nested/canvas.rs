//! What is drawn so far, as a plane graph on the grid, and the walk around its faces.
//!
//! The grid has a frame about it: housing above, the axis below, an end at either side. All that is drawn hangs
//! together, so that each face is bounded by one closed walk, which is taken with the face on the left. Where
//! it passes a joint it goes on to another vertex; in between lies a stretch of one vertex, from which
//! lines can lead off into the face.

use levertrain_core::vertices::{AXIS, HOUSING, INPUT_END, OUTPUT_END};

use crate::draw::section::grid::{Grid, Node};

/// Directions, each a quarter turn to the left of the one before.
pub const EAST: usize = 0;
pub const NORTH: usize = 1;
pub const WEST: usize = 2;
pub const SOUTH: usize = 3;
const DIRECTIONS: usize = 4;

/// A node of the grid or of the frame about it.
pub type Spot = usize;

/// Whose a spot is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Holder {
    /// Nothing is drawn there.
    Nobody,
    /// A wall: the inside of a set, or of a clutch.
    Wall,
    /// A vertex.
    Vertex(usize),
    /// A gear that is not led to its shaft yet, by the joint that its mesh is.
    Gear(usize),
}

/// A way off a spot.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Dart {
    pub from: Spot,
    pub direction: usize,
}

/// A stretch of the walk around a face.
#[derive(Debug, Clone)]
pub struct Stretch {
    pub of: Holder,
    /// The joint before it, and the one after it: clockwise the next one around the vertex.
    pub joints: [usize; 2],
    /// The ways off it into the face, in the order of the walk.
    pub darts: Vec<Dart>,
}

/// What is drawn.
pub struct Canvas {
    columns: usize,
    holders: Vec<Holder>,
    /// The steps to the east and to the north that are drawn.
    steps: Vec<[bool; 2]>,
    /// The joint that a spot stands for.
    joints: Vec<Option<usize>>,
    /// Steps that stand for joints.
    links: Vec<([Spot; 2], usize)>,
}

impl Canvas {
    /// Nothing but the frame; `rims` are the joints of two ends with housing and axis.
    pub fn new(grid: &Grid, rim: impl Fn(usize, usize) -> Option<usize>) -> Option<Self> {
        let (columns, rows) = (grid.columns() + 2, grid.rows() + 2);
        let mut canvas = Self {
            columns,
            holders: vec![Holder::Nobody; columns * rows],
            steps: vec![[false; 2]; columns * rows],
            joints: vec![None; columns * rows],
            links: Vec::new(),
        };
        let spot = |column: usize, row: usize| row * columns + column;
        let (last, top) = (columns - 1, rows - 1);
        for column in 0..columns {
            canvas.holders[spot(column, 0)] = Holder::Vertex(AXIS);
            canvas.holders[spot(column, top)] = Holder::Vertex(HOUSING);
        }
        for row in 1..top {
            canvas.holders[spot(0, row)] = Holder::Vertex(INPUT_END);
            canvas.holders[spot(last, row)] = Holder::Vertex(OUTPUT_END);
        }
        for column in 0..last {
            canvas.steps[spot(column, 0)][EAST] = true;
            canvas.steps[spot(column, top)][EAST] = true;
        }
        for row in 0..top {
            canvas.steps[spot(0, row)][NORTH] = true;
            canvas.steps[spot(last, row)][NORTH] = true;
        }
        for (column, end) in [(0, INPUT_END), (last, OUTPUT_END)] {
            let below = [spot(column, 0), spot(column, 1)];
            let above = [spot(column, top - 1), spot(column, top)];
            canvas.links.push((below, rim(AXIS, end)?));
            canvas.links.push((above, rim(HOUSING, end)?));
        }
        Some(canvas)
    }

    /// The spot of a node of the grid.
    pub const fn spot(&self, grid: &Grid, node: Node) -> Spot {
        (grid.row(node) + 1) * self.columns + grid.column(node) + 1
    }

    /// The node of the grid at a spot, off the frame.
    pub fn node(&self, grid: &Grid, spot: Spot) -> Option<Node> {
        let (column, row) = (spot % self.columns, spot / self.columns);
        let inside = (1..=grid.columns()).contains(&column) && (1..=grid.rows()).contains(&row);
        inside.then(|| grid.node(column - 1, row - 1))
    }

    /// Where a dart leads.
    pub fn target(&self, dart: Dart) -> Option<Spot> {
        match dart.direction {
            EAST => Some(dart.from + 1),
            NORTH => Some(dart.from + self.columns),
            WEST => dart.from.checked_sub(1),
            _ => dart.from.checked_sub(self.columns),
        }
    }

    pub fn hold(&mut self, spot: Spot, holder: Holder) {
        self.holders[spot] = holder;
    }

    pub fn holders(&self) -> &[Holder] {
        &self.holders
    }

    pub fn holders_mut(&mut self) -> &mut [Holder] {
        &mut self.holders
    }

    /// The joint that a spot stands for.
    pub fn joint_at(&self, spot: Spot) -> Option<usize> {
        self.joints[spot]
    }

    /// The joint that a step stands for.
    pub fn link(&self, a: Spot, b: Spot) -> Option<usize> {
        let is_it = |pair: &[Spot; 2]| *pair == [a, b] || *pair == [b, a];
        let link = self.links.iter().find(|(pair, _)| is_it(pair));
        link.map(|&(_, joint)| joint)
    }

    /// All steps that are drawn.
    pub fn all_steps(&self) -> Vec<(Spot, Spot)> {
        let steps = self.steps.iter().enumerate();
        steps
            .flat_map(|(spot, &[east, north])| {
                let east = east.then_some((spot, spot + 1));
                let north = north.then_some((spot, spot + self.columns));
                east.into_iter().chain(north)
            })
            .collect()
    }

    /// Draws a straight line of one holder; its last step may stand for a joint.
    pub fn line(&mut self, [from, to]: [Spot; 2], holder: Holder, joint: Option<usize>) {
        let stride = if self.is_along(from, to) {
            1
        } else {
            self.columns
        };
        let mut at = from;
        while at != to {
            let next = if at < to { at + stride } else { at - stride };
            if next != to {
                self.hold(next, holder);
            }
            self.step(at, next, joint.filter(|_| next == to));
            at = next;
        }
    }

    /// Whether a step goes along a row.
    pub const fn is_along(&self, a: Spot, b: Spot) -> bool {
        a / self.columns == b / self.columns
    }

    /// The neighbour of a spot in the direction that leads from one to another of a canvas of other size.
    pub const fn beside(&self, spot: Spot, other: &Self, from: Spot, to: Spot) -> Spot {
        let stride = if other.is_along(from, to) {
            1
        } else {
            self.columns
        };
        if from < to {
            spot + stride
        } else {
            spot - stride
        }
    }

    pub fn holder(&self, spot: Spot) -> Holder {
        self.holders[spot]
    }

    /// Has a spot stand for a joint.
    pub fn join_at(&mut self, spot: Spot, joint: usize) {
        self.joints[spot] = Some(joint);
    }

    /// Draws the step between two neighbours, which may stand for a joint.
    pub fn step(&mut self, a: Spot, b: Spot, joint: Option<usize>) {
        let way = if a.abs_diff(b) == 1 { EAST } else { NORTH };
        self.steps[a.min(b)][way] = true;
        self.links.extend(joint.map(|joint| ([a, b], joint)));
    }

    fn is_drawn(&self, dart: Dart) -> bool {
        let Dart { from, direction } = dart;
        let before = |length: usize| from.checked_sub(length);
        let drawn = |spot: Option<Spot>, way: usize| spot.is_some_and(|spot| self.steps[spot][way]);
        match direction {
            EAST => self.steps[from][EAST],
            NORTH => self.steps[from][NORTH],
            WEST => drawn(before(1), EAST),
            _ => drawn(before(self.columns), NORTH),
        }
    }

    /// The stretches around every face, in the order of the walk around it.
    pub fn faces(&self) -> Vec<Vec<Stretch>> {
        let mut walked = vec![[false; DIRECTIONS]; self.holders.len()];
        let mut faces = Vec::new();
        for from in 0..self.holders.len() {
            for direction in 0..DIRECTIONS {
                let dart = Dart { from, direction };
                if self.is_drawn(dart) && !walked[from][direction] {
                    faces.push(self.walk(dart, &mut walked));
                }
            }
        }
        faces
    }

    fn walk(&self, first: Dart, walked: &mut [[bool; DIRECTIONS]]) -> Vec<Stretch> {
        let mut stretches: Vec<Stretch> = Vec::new();
        // What lies before the first joint belongs to the last stretch.
        let mut current = Stretch {
            of: Holder::Nobody,
            joints: [usize::MAX; 2],
            darts: Vec::new(),
        };
        let mut pass = |current: &mut Stretch, joint: usize| {
            let next = Stretch {
                of: Holder::Nobody,
                joints: [joint, usize::MAX],
                darts: Vec::new(),
            };
            let mut done = std::mem::replace(current, next);
            done.joints[1] = joint;
            stretches.push(done);
        };
        let mut dart = first;
        while let Some(to) = self.target(dart) {
            walked[dart.from][dart.direction] = true;
            let ends = [dart.from, to];
            let link = self
                .links
                .iter()
                .find(|(pair, _)| *pair == ends || [pair[1], pair[0]] == ends);
            if let Some(&(_, joint)) = link {
                pass(&mut current, joint);
            }
            let holder = self.holders[to];
            let is_wall = !matches!(holder, Holder::Vertex(_) | Holder::Gear(_));
            if !is_wall {
                current.of = holder;
            }
            if let Some(joint) = self.joints[to] {
                pass(&mut current, joint);
            }
            // Clockwise from where it came: the first step that is drawn leads on.
            let mut direction = (dart.direction + 2) % DIRECTIONS;
            loop {
                direction = (direction + DIRECTIONS - 1) % DIRECTIONS;
                dart = Dart {
                    from: to,
                    direction,
                };
                if self.is_drawn(dart) {
                    break;
                }
                if !is_wall {
                    current.darts.push(dart);
                }
            }
            if dart == first {
                break;
            }
        }
        match stretches.first_mut() {
            Some(first) if first.joints[0] == usize::MAX => {
                current.darts.append(&mut first.darts);
                if current.of == Holder::Nobody {
                    current.of = first.of;
                }
                current.joints[1] = first.joints[1];
                *first = current;
            }
            _ => {}
        }
        stretches
    }
}

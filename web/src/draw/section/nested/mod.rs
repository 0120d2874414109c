//! A plan in which nothing crosses, drawn after an embedding: where the shafts of a train nest, there is one.
//!
//! At first every set is joined to what is drawn by one line, so that all hangs together and there is one face,
//! a disk. Every other line then is a chord of a disk, from one corner of a vertex to another: which corners, the
//! embedding says, and between two of them there is but one way to go about a disk. Chords that cut off a side with
//! no end of another chord in it come first, so that nothing ever has to get into what is cut off. Before each line all
//! moves apart (`spacing`), so that there is room beside every other. Only between the rows of the sets, where clutches lie,
//! none can be made: where it is wanting there, another embedding is tried. How fair the plan is depends on chance; the
//! rounds that better any plan come after it.
//!
//! (That planar graphs can be drawn with each vertex where one likes: J. Pach, R. Wenger, "Embedding planar graphs at
//! fixed vertex locations", Graphs and Combinatorics 17, 2001.)

mod attaching;
mod canvas;
mod clutches;
mod routing;
mod sets;
mod spacing;
mod widened;

use std::fmt;
use std::task::Poll;

use levertrain_core::{Embedding, Joint, Train, vertices};

use super::board::{Board, Toll};
use super::dice::Dice;
use super::draft::Draft;
use super::grid::{Grid, Node};
use super::parts::Part;
use super::plan::{PackPlace, member};
use super::planning::Nest;
use super::search::Sketch;
use canvas::{Canvas, Dart, Holder, Spot, Stretch};

/// How many columns are free beside every line while others are laid, and in the end.
const FREE: usize = 5;
const FREE_AT_LAST: usize = 1;

/// A plan in the making, after one embedding.
pub struct Laying {
    train: Train,
    embedding: Embedding,
    turned: Vec<bool>,
    parts: Vec<Part>,
    grid: Grid,
    /// Where there is no room any more.
    board: Board,
    canvas: Canvas,
    /// What it costs to pass where other lines are to lead off yet.
    tolls: Vec<(Node, u16)>,
    /// Which joints are drawn.
    done: Vec<bool>,
    /// Which couplings are joined to what is drawn.
    attached: Vec<bool>,
    packs: Vec<Option<PackPlace>>,
    ends: [Option<Node>; 2],
    supports: Vec<Option<usize>>,
    /// Whether all hangs together, and only chords are to come.
    is_whole: bool,
}

// Told in short: to spell out a whole train takes code that would be downloaded.
impl fmt::Debug for Laying {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(stringify!(Laying))
    }
}

impl Laying {
    /// Nothing drawn yet; `None` where no embedding is found.
    pub fn of(train: &Train, dice: &mut Dice) -> Option<Self> {
        let embedding = train.embedding(&mut |count| dice.below(count))?;
        let turned = sets::turned(train, &embedding)?;
        let bare = Sketch::bare(train, 1, &turned);
        let grid = bare.gears.grid;
        let joints = embedding.joints.iter();
        Some(Self {
            canvas: edge(&grid, &embedding)?,
            tolls: Vec::new(),
            done: joints.map(|(joint, _)| *joint == Joint::Rim).collect(),
            attached: vec![false; train.scenario().couplings.len()],
            packs: vec![None; bare.packs.len()],
            ends: [None; 2],
            supports: vec![None; bare.supports.len()],
            board: bare.gears.board.clone(),
            parts: bare.gears.parts.clone(),
            train: train.clone(),
            is_whole: false,
            turned,
            embedding,
            grid,
        })
    }
}

impl Nest for Laying {
    fn advance(&mut self, dice: &mut Dice) -> Poll<Option<Sketch>> {
        let Some(()) = self.space(FREE) else {
            return Poll::Ready(None);
        };
        let laid = if self.is_whole {
            self.lay_next(dice)
        } else {
            self.attach_next(dice)
        };
        match laid {
            Some(true) => Poll::Pending,
            Some(false) if !self.is_whole => {
                self.is_whole = true;
                Poll::Pending
            }
            Some(false) => Poll::Ready(self.finish()),
            None => Poll::Ready(None),
        }
    }
}

impl Laying {
    /// Lays one of the chords that are left, through a face; `None` where there is no room, `false` where none
    /// is left.
    fn lay_next(&mut self, dice: &mut Dice) -> Option<bool> {
        let faces = self.faces();
        let mut ready = Vec::new();
        let mut is_left = false;
        for face in &faces {
            let tokens = self.tokens(face);
            is_left |= !tokens.is_empty();
            for (at, &joint) in tokens.iter().enumerate() {
                // Its other end comes next: nothing lies between.
                if tokens.len() > 1 && tokens[(at + 1) % tokens.len()] == joint {
                    ready.push(joint);
                }
            }
        }
        if !is_left {
            return Some(false);
        }
        let joint = *ready.get(dice.below(ready.len().max(1)))?;
        self.set_tolls(&faces, joint);
        let (_, [a, b]) = self.embedding.joints[joint];
        match attaching::ways_off_gear(&faces, joint) {
            Some(goals) => {
                let vertex = self.gear_vertex(joint)?;
                let starts = self.corner(&faces, vertex, joint)?;
                self.connect(joint, vertex, &starts, Some(&goals))?;
                self.give_gear(joint, vertex);
            }
            None => {
                let starts = self.corner(&faces, a, joint)?;
                let goals = self.corner(&faces, b, joint)?;
                self.connect(joint, a, &starts, Some(&goals))?;
            }
        }
        Some(true)
    }

    /// Has it cost more to pass where joints other than this one are to lead off yet.
    fn set_tolls(&mut self, faces: &[Vec<Stretch>], own: usize) {
        const FEW: usize = 4;
        const NEAR: u16 = 30;
        const NEAR_FEW: u16 = 150;
        let mut tolls = Vec::new();
        for stretch in faces.iter().flatten() {
            let open = match stretch.of {
                Holder::Gear(joint) => joint != own,
                Holder::Vertex(vertex) => {
                    let mut between = self.between(vertex, stretch.joints);
                    between.any(|joint| joint != own && self.is_open(joint))
                }
                Holder::Nobody | Holder::Wall => false,
            };
            if open {
                let toll = if stretch.darts.len() > FEW {
                    NEAR
                } else {
                    NEAR_FEW
                };
                let targets = stretch
                    .darts
                    .iter()
                    .filter_map(|dart| self.canvas.target(*dart));
                let nodes = targets.filter_map(|spot| self.canvas.node(&self.grid, spot));
                tolls.extend(nodes.map(|node| (node, toll)));
            }
        }
        self.tolls = tolls;
    }

    /// The board with these tolls.
    fn tolled(&self) -> Board {
        let mut board = self.board.clone();
        for &(node, toll) in &self.tolls {
            board.toll_about(node, toll);
        }
        board
    }

    /// All faces that there is room in.
    fn faces(&self) -> Vec<Vec<Stretch>> {
        let mut faces = self.canvas.faces();
        for stretch in faces.iter_mut().flatten() {
            stretch.darts.retain(|dart| self.is_free(*dart));
        }
        faces.retain(|face| face.iter().any(|stretch| !stretch.darts.is_empty()));
        faces
    }

    /// The joints that are to be drawn into a face yet, once for each end there, in their order around it.
    fn tokens(&self, face: &[Stretch]) -> Vec<usize> {
        let mut tokens = Vec::new();
        for stretch in face {
            match stretch.of {
                Holder::Gear(joint) => tokens.push(joint),
                Holder::Vertex(vertex) => {
                    let between = self.between(vertex, stretch.joints);
                    tokens.extend(between.filter(|&joint| self.is_open(joint)));
                }
                Holder::Nobody | Holder::Wall => {}
            }
        }
        tokens
    }

    /// Whether a joint is to be drawn yet: suns beside each other need nothing.
    fn is_open(&self, joint: usize) -> bool {
        let beside = matches!(
            self.embedding.joints[joint].0,
            Joint::Suns(_) | Joint::Set(_)
        );
        !self.done[joint] && !beside
    }

    /// The joints around a vertex between two of them, clockwise.
    fn between(&self, vertex: usize, [from, to]: [usize; 2]) -> impl Iterator<Item = usize> {
        let around = &self.embedding.around[vertex];
        let start = around.iter().position(|&at| at == from);
        let round = (1..=around.len()).map(move |step| (start, step));
        round
            .map_while(|(start, step)| Some(around[(start? + step) % around.len()]))
            .take_while(move |&at| at != to)
    }

    /// The ways off a vertex where a joint belongs.
    fn corner(&self, faces: &[Vec<Stretch>], vertex: usize, joint: usize) -> Option<Vec<Dart>> {
        let mut own = faces.iter().flatten().filter(|stretch| {
            stretch.of == Holder::Vertex(vertex)
                && self.between(vertex, stretch.joints).any(|at| at == joint)
        });
        let mut darts = own.next()?.darts.clone();
        if vertex == vertices::HOUSING {
            // From its edge only: what is led up to it comes by itself.
            darts.retain(|dart| self.canvas.node(&self.grid, dart.from).is_none());
        }
        Some(darts)
    }

    /// Whether a line can lead off a spot this way.
    fn is_free(&self, dart: Dart) -> bool {
        let target = self.canvas.target(dart);
        let Some(to) = target.and_then(|spot| self.canvas.node(&self.grid, spot)) else {
            return false;
        };
        if !self.board.is_empty(to) {
            return false;
        }
        let (column, row) = (self.grid.column(to), self.grid.row(to));
        match self.canvas.node(&self.grid, dart.from) {
            Some(from) => self.board.leads(from, to),
            // From the frame: what hangs from the housing keeps its distance, the ends are below it.
            None => match self.canvas.holder(dart.from) {
                Holder::Vertex(vertices::HOUSING) => {
                    let packs = self.packs.iter().flatten();
                    let brakes = packs.filter_map(PackPlace::brake_column);
                    let mut taken = brakes.chain(self.supports.iter().flatten().copied());
                    (1..self.grid.columns() - 1).contains(&column)
                        && taken.all(|other| other.abs_diff(column) > 1)
                }
                Holder::Vertex(vertices::AXIS) => false,
                _ => row < self.grid.brake_row(),
            },
        }
    }

    /// The member that a vertex is drawn as.
    fn member(&self, vertex: usize) -> Option<usize> {
        Some(member(self.embedding.bodies[vertex]?, &self.train))
    }

    fn spot(&self, node: Node) -> Spot {
        self.canvas.spot(&self.grid, node)
    }

    /// The plan, which the usual way to make one finds whole.
    fn finish(&mut self) -> Option<Sketch> {
        self.space(FREE_AT_LAST)?;
        let sketch = Sketch {
            runs: self.runs(),
            packs: self.packs.clone(),
            ends: self.ends,
            supports: self.supports.clone(),
            ..Sketch::on(&self.train, self.grid, &self.turned)
        };
        let none = vec![Toll::default(); self.grid.sets + 1];
        let draft = Draft::without(&sketch, &self.train, none, |_| false);
        draft.finish(&[], u32::MAX)
    }
}

/// A canvas with nothing on it but the edge of the half-plane.
fn edge(grid: &Grid, embedding: &Embedding) -> Option<Canvas> {
    Canvas::new(grid, |a, b| {
        let is_it = |ends: [usize; 2]| ends == [a, b] || ends == [b, a];
        embedding.joints.iter().position(|(_, ends)| is_it(*ends))
    })
}

/// What lies between two leads that a joint stands for: a clutch, or a brake within a carrier that is part of the housing.
fn flat_of((joint, ends): (Joint, [usize; 2])) -> Option<usize> {
    match joint {
        Joint::Element(element) if !ends.contains(&vertices::HOUSING) => Some(element),
        _ => None,
    }
}

#[cfg(test)]
mod tests;
#[cfg(test)]
mod within_tests;

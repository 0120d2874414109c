//! How the shafts of a train lie about each other where none passes through another.
//!
//! The graph that decides whether they nest, drawn in the half-plane: around each vertex its joints in the order in
//! which they are met there. With the housing above, the input's end to the left and the axis below, that
//! is clockwise. Joints that stand for one edge lie side by side.

use super::planarity::{Graph, MOST_VERTICES};
use super::{BEYOND, End, HOUSING, Layouts, MOST_GRAPHS, Nesting, OUTPUT_END};
use crate::model::coupling::Role;
use crate::train::{Body, Train};

/// What joins two vertices.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Joint {
    /// A piece of the edge of the half-plane.
    Rim,
    /// The input comes in.
    Input,
    /// The output goes out.
    Output,
    /// A clutch, a brake or a one-way clutch.
    Element(usize),
    /// A gear meshes with the pinions of a set, or with the other gear of a pair.
    Mesh {
        /// Which coupling.
        coupling: usize,
        /// Which of its members.
        member: usize,
    },
    /// The two suns of a coupling lie beside each other.
    Suns(usize),
    /// What keeps two suns and their carrier together.
    Set(usize),
    /// The carrier of a coupling is held to the housing.
    Held(usize),
    /// Two carriers are of one shaft.
    Carriers,
    /// Nothing in metal: some part that is joined to nothing else hangs together with the rest by it.
    Loose,
}

/// A way to nest the shafts of a train.
#[derive(Debug, Clone)]
pub struct Embedding {
    /// What joins which vertices: the carrier or the first gear comes first at a mesh.
    pub joints: Vec<(Joint, [usize; 2])>,
    /// Around each vertex its joints, clockwise.
    pub around: Vec<Vec<usize>>,
    /// What each vertex is of; nothing for the edge of the half-plane but the housing.
    pub bodies: Vec<Option<Body>>,
    /// The vertex of the carrier of each coupling that has one.
    pub carriers: Vec<Option<usize>>,
}

impl Train {
    /// A way to nest the shafts, if it is found; where there are several, `choose` takes one of so many. Each carrier that is part
    /// of the housing is led up to it by itself, and brakes hang within one where they must.
    pub fn embedding(&self, choose: &mut dyn FnMut(usize) -> usize) -> Option<Embedding> {
        let layouts = Layouts::of(self, true);
        let (brakes, mut left) = (layouts.brakes(), MOST_GRAPHS);
        let layouts =
            (0..=brakes.len()).find_map(|within| layouts.hung(&brakes, within, &mut left))?;
        Embedding::of(&layouts, self, choose)
    }
}

impl Layouts {
    /// The edges of the brakes that hang from the housing outside.
    fn brakes(&self) -> Vec<usize> {
        let is_brake = |&edge: &usize| {
            let hangs = |end: &End| matches!(end, End::At(HOUSING));
            matches!(self.joints[edge], Joint::Element(_)) && self.edges[edge].iter().any(hangs)
        };
        (0..self.edges.len()).filter(is_brake).collect()
    }

    /// The same with so many of some brakes hung within carriers that are part of the housing, if all nests then; `left`
    /// tells how many ways may be tried yet.
    fn hung(&self, brakes: &[usize], within: usize, left: &mut usize) -> Option<Self> {
        if within == 0 {
            *left = left.checked_sub(1)?;
            let mut layouts = self.clone();
            return (layouts.decide() == Nesting::Nests).then_some(layouts);
        }
        let held = self.joints.iter().zip(&self.edges);
        let held = held.filter(|(joint, _)| matches!(joint, Joint::Held(_)));
        let carriers: Vec<End> = held.map(|(_, &[carrier, _])| carrier).collect();
        (0..brakes.len()).find_map(|at| {
            carriers.iter().find_map(|&carrier| {
                let mut layouts = self.clone();
                let ends = layouts.edges[brakes[at]].iter_mut();
                let mut outside = ends.filter(|end| matches!(end, End::At(HOUSING)));
                *outside.next()? = carrier;
                layouts.hung(&brakes[at + 1..], within - 1, left)
            })
        })
    }
}

impl Embedding {
    fn of(
        layouts: &Layouts,
        train: &Train,
        choose: &mut dyn FnMut(usize) -> usize,
    ) -> Option<Self> {
        let joints: Option<Vec<_>> = layouts
            .edges
            .iter()
            .zip(&layouts.joints)
            .map(|(&ends, &joint)| {
                let [a, b] = ends.map(|end| match end {
                    End::At(vertex) => Some(vertex),
                    End::AnyOf(_) => None,
                });
                // A member that meshes with itself turns as one with it: nothing to nest.
                Some((joint, [a?, b?])).filter(|(_, [a, b])| a != b)
            })
            .collect();
        let mut joints = joints?;
        if joints
            .iter()
            .any(|(_, ends)| ends.iter().any(|&at| at >= MOST_VERTICES))
        {
            return None;
        }
        let mut graph = Graph::new();
        joints.iter().for_each(|&(_, [a, b])| graph.join(a, b));
        let carriers = layouts.carriers.iter().flatten().copied();
        // Parts begin at a carrier where they have one.
        for vertex in carriers.chain(0..MOST_VERTICES) {
            if graph.is_apart(vertex, HOUSING) {
                joints.push((Joint::Loose, [vertex, HOUSING]));
                graph.join(vertex, HOUSING);
            }
        }
        let neighbours = graph.drawn(choose)?;
        let around: Vec<Vec<usize>> = neighbours
            .iter()
            .enumerate()
            .map(|(vertex, neighbours)| {
                let of = |&other: &usize| {
                    let mut own: Vec<usize> = (0..joints.len())
                        .filter(|&at| {
                            let [a, b] = joints[at].1;
                            [a, b] == [vertex, other] || [b, a] == [vertex, other]
                        })
                        .collect();
                    if vertex > other {
                        own.reverse();
                    }
                    own
                };
                neighbours.iter().flat_map(of).collect()
            })
            .collect();
        let mut embedding = Self {
            joints,
            around,
            bodies: bodies(layouts, train),
            carriers: layouts.carriers.clone(),
        };
        embedding.close_sets(train);
        embedding.close_rim();
        // Clockwise the end of the output comes after what is beyond the housing.
        let rim = |ends: [usize; 2]| embedding.joints.iter().position(|joint| joint.1 == ends);
        let (beyond, output) = (rim([BEYOND, HOUSING])?, rim([HOUSING, OUTPUT_END])?);
        let housing = &embedding.around[HOUSING];
        let at = housing.iter().position(|&joint| joint == beyond)?;
        if housing[(at + 1) % housing.len()] != output {
            let around = &mut embedding.around;
            around.iter_mut().for_each(|around| around.reverse());
        }
        embedding.take_out(|_, ends| ends.contains(&BEYOND));
        Some(embedding)
    }

    /// Nothing lies beyond the edge of the half-plane.
    fn close_rim(&mut self) {
        for spoke in 0..self.joints.len() {
            if let (Joint::Rim, [BEYOND, vertex]) = self.joints[spoke] {
                self.close(spoke, vertex, |(joint, _)| joint == Joint::Rim);
            }
        }
    }

    /// Nothing lies between the two suns of a set and its carrier.
    fn close_sets(&mut self, train: &Train) {
        for spoke in 0..self.joints.len() {
            let (Joint::Set(set), [_, vertex]) = self.joints[spoke] else {
                continue;
            };
            self.close(spoke, vertex, |(joint, _)| match joint {
                Joint::Mesh { coupling, member } => {
                    coupling == set && role(coupling, train, member).is_sun()
                }
                Joint::Suns(coupling) => coupling == set,
                _ => false,
            });
        }
        self.take_out(|joint, _| matches!(joint, Joint::Set(_)));
    }

    /// Moves what lies around a vertex between a joint and those on either side of it to the other side
    /// of these. That is done at both of their ends, so that the drawing stays one without crossings.
    fn close(
        &mut self,
        spoke: usize,
        vertex: usize,
        is_side: impl Fn((Joint, [usize; 2])) -> bool,
    ) {
        let around = &self.around[vertex];
        let Some(start) = around.iter().position(|&at| at == spoke) else {
            return;
        };
        let round = (1..around.len()).map(|step| around[(start + step) % around.len()]);
        let round: Vec<usize> = round.collect();
        let side = |at: &usize| is_side(self.joints[*at]);
        let sides = [round.iter().position(side), round.iter().rposition(side)];
        let [Some(first), Some(last)] = sides else {
            return;
        };
        if first == last {
            return;
        }
        let mut moved = vec![spoke, round[first]];
        moved.extend(&round[..first]);
        moved.extend(&round[first + 1..last]);
        moved.extend(&round[last + 1..]);
        moved.push(round[last]);
        self.around[vertex] = moved;
    }

    /// Takes joints out of the order around all vertices.
    fn take_out(&mut self, which: impl Fn(Joint, [usize; 2]) -> bool) {
        let joints = &self.joints;
        let stays = |at: &usize| !which(joints[*at].0, joints[*at].1);
        for around in &mut self.around {
            around.retain(stays);
        }
    }
}

fn role(coupling: usize, train: &Train, member: usize) -> Role {
    let coupling = &train.scenario().couplings[coupling];
    coupling.facts().members()[member].role
}

/// What each vertex is of.
fn bodies(layouts: &Layouts, train: &Train) -> Vec<Option<Body>> {
    let mut bodies = vec![None; MOST_VERTICES];
    for (body, vertices) in layouts.vertices.iter().enumerate() {
        let of = match body.checked_sub(1) {
            Some(shaft) => Body::Shaft(shaft),
            None => Body::Housing,
        };
        bodies[vertices.clone()].fill(Some(of));
    }
    for (coupling, vertex) in layouts.carriers.iter().enumerate() {
        let members = train.members(coupling).iter().enumerate();
        let mut carriers = members.filter(|&(at, _)| role(coupling, train, at) == Role::Carrier);
        if let (Some(vertex), Some((_, &body))) = (vertex, carriers.next()) {
            bodies[*vertex] = Some(body);
        }
    }
    bodies
}

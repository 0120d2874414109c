//! Whether a train can be built round one axis, its shafts nested one inside the other.
//!
//! Everything turns about one axis, so a half-plane through it shows all there is: two shafts that
//! must cross there would pass through each other in metal. The question is one about a graph.
//!
//! - A shaft is one piece of metal of any shape, hence a vertex. So is the housing.
//! - Clutch and brake join two of them, hence an edge: packs can be put wherever both reach.
//! - The members of a set touch through its pinions: sun and carrier, carrier and ring. A set is
//!   solid from its sun out to its ring; the sun is reached from below and both sides, the ring from
//!   above and both sides, the carrier from either side, between them. So the metal of the carrier
//!   goes right through its set, and what else hangs on its shaft lies left or right of that. This
//!   needs no more than the two edges, as long as the shaft has one carrier: the edges to sun and to
//!   ring divide what is around the vertex into left and right. Two suns that share their pinions
//!   lie side by side under the carrier with nothing between: the three and a vertex for the set
//!   are joined each to each.
//! - The half-plane ends at the housing, at both ends and at the axis: a cycle, and a vertex that is
//!   joined to all of it, so that everything else is on its one side. The input comes in at one end
//!   and the output goes out at the other.
//!
//! A shaft with several carriers is a vertex for each, joined to a tree, and all else on the shaft
//! is joined to one of them; which is searched for. The order of the sets along the axis does not
//! matter: the half-plane can be stretched until they stand in any. A set may be put in either way
//! round.

mod embedding;
mod planarity;

pub use embedding::{Embedding, Joint};

use crate::model::coupling::Role;
use crate::train::{Body, Train};
use planarity::Graph;
use vertices::{AXIS, HOUSING, INPUT_END, OUTPUT_END};

/// How many graphs are looked at before a train with shared carriers is given up.
const MOST_GRAPHS: usize = 400;

/// Vertices that every embedding has: the edge of the half-plane.
pub mod vertices {
    /// The housing.
    pub const HOUSING: usize = 0;
    /// The end where the input comes in.
    pub const INPUT_END: usize = 1;
    /// The end where the output goes out.
    pub const OUTPUT_END: usize = 2;
    /// The axis.
    pub const AXIS: usize = 3;
}
/// The vertex of what lies beyond the edge of the half-plane.
const BEYOND: usize = 4;
const RIM: [(usize, usize); 8] = [
    (INPUT_END, HOUSING),
    (HOUSING, OUTPUT_END),
    (OUTPUT_END, AXIS),
    (AXIS, INPUT_END),
    (BEYOND, HOUSING),
    (BEYOND, INPUT_END),
    (BEYOND, OUTPUT_END),
    (BEYOND, AXIS),
];

/// Whether the shafts of a train can be nested round one axis.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Nesting {
    /// There is a layout in which no shaft passes through another.
    Nests,
    /// In every layout a shaft passes through another.
    Crosses,
    /// Too many ways of sharing carriers to look at.
    Undecided,
}

impl Train {
    /// Whether the shafts can be nested round one axis, the input at one end, the output at the
    /// other, the housing around.
    pub fn nesting(&self) -> Nesting {
        Layouts::of(self, false).decide()
    }
}

/// What an edge ends at.
#[derive(Clone, Copy)]
enum End {
    /// A vertex.
    At(usize),
    /// Any of the vertices of a body with several carriers.
    AnyOf(usize),
}

/// The graphs that a train may be laid out as.
#[derive(Clone)]
struct Layouts {
    /// The vertices of each body: the housing, then the shafts.
    vertices: Vec<std::ops::Range<usize>>,
    /// The vertex of the carrier of each coupling that has one.
    carriers: Vec<Option<usize>>,
    edges: Vec<[End; 2]>,
    /// What each edge stands for.
    joints: Vec<Joint>,
    /// From here on edges join carriers of one shaft.
    first_tree: usize,
    looked_at: usize,
}

impl Layouts {
    /// With `apart`, each carrier that is part of the housing is led up to it by itself, as it is drawn.
    fn of(train: &Train, apart: bool) -> Self {
        let scenario = train.scenario();
        let body = |body: Body| match body {
            Body::Housing => 0,
            Body::Shaft(shaft) => 1 + shaft,
        };
        // The carriers of each body, each with the coupling it is of.
        let mut carriers = vec![Vec::new(); 1 + scenario.shafts.len()];
        for (index, coupling) in scenario.couplings.iter().enumerate() {
            for (member, &of) in coupling.facts().members().iter().zip(train.members(index)) {
                if member.role == Role::Carrier {
                    carriers[body(of)].push(index);
                }
            }
        }
        let mut next = BEYOND + 1;
        let mut take = |count: usize| {
            next += count;
            next - count..next
        };
        let vertices: Vec<_> = carriers
            .iter()
            .enumerate()
            .map(|(body, carriers)| match carriers.len() {
                count if body == 0 && (count < 2 || apart) => HOUSING..HOUSING + 1,
                count => take(count.max(1)),
            })
            .collect();
        let end = |of: Body| match &vertices[body(of)] {
            one if one.len() == 1 => End::At(one.start),
            _ => End::AnyOf(body(of)),
        };
        let mut edges: Vec<(Joint, [End; 2])> = Vec::new();
        edges.extend(RIM.map(|(a, b)| (Joint::Rim, [End::At(a), End::At(b)])));
        if vertices[0].len() > 1 {
            edges.push((Joint::Rim, [End::At(HOUSING), End::AnyOf(0)]));
        }
        let shaft = |shaft: usize| end(Body::Shaft(shaft));
        edges.push((Joint::Input, [End::At(INPUT_END), shaft(train.input())]));
        edges.push((Joint::Output, [End::At(OUTPUT_END), shaft(train.output())]));
        for element in 0..scenario.elements.len() {
            edges.push((Joint::Element(element), train.ends(element).map(end)));
        }
        let mut own = vec![None; scenario.couplings.len()];
        for (index, coupling) in scenario.couplings.iter().enumerate() {
            let facts = coupling.facts().members();
            let bodies = train.members(index);
            let of_role = |role: Role| facts.iter().position(|member| member.role == role);
            let member = |member: usize| end(bodies[member]);
            let mesh = |member: usize| Joint::Mesh {
                coupling: index,
                member,
            };
            let suns: Vec<usize> = (0..facts.len())
                .filter(|&at| facts[at].role.is_sun())
                .collect();
            if let Some(carrier) = of_role(Role::Carrier) {
                let shared = &carriers[body(bodies[carrier])];
                let place = shared.iter().position(|&at| at == index).unwrap_or(0);
                let vertex = if apart && bodies[carrier] == Body::Housing {
                    let vertex = take(1).start;
                    edges.push((Joint::Held(index), [End::At(vertex), End::At(HOUSING)]));
                    vertex
                } else {
                    vertices[body(bodies[carrier])].start + place
                };
                own[index] = Some(vertex);
                let carrier = End::At(vertex);
                let meshing = suns.iter().copied().chain(of_role(Role::Ring));
                edges.extend(meshing.map(|at| (mesh(at), [carrier, member(at)])));
                if let [one, other] = suns[..] {
                    let set = End::At(take(1).start);
                    let [one, other] = [one, other].map(member);
                    edges.push((Joint::Suns(index), [one, other]));
                    edges.extend([one, other, carrier].map(|end| (Joint::Set(index), [set, end])));
                }
            } else if let (Some(first), Some(second)) =
                (of_role(Role::First), of_role(Role::Second))
            {
                edges.push((mesh(second), [member(first), member(second)]));
            }
        }
        let (joints, edges): (_, Vec<_>) = edges.into_iter().unzip();
        Self {
            vertices,
            carriers: own,
            first_tree: edges.len(),
            edges,
            joints,
            looked_at: 0,
        }
    }

    /// Chooses all that is left open, where the shafts nest.
    fn decide(&mut self) -> Nesting {
        // With all carriers of a shaft as one vertex more can be drawn than in metal.
        if !self.merged().is_planar() {
            return Nesting::Crosses;
        }
        // Each carrier but a shaft's first hangs on another one of the shaft.
        for body in 0..self.vertices.len() {
            for vertex in self.vertices[body].clone().skip(1) {
                self.edges.push([End::At(vertex), End::AnyOf(body)]);
                self.joints.push(Joint::Carriers);
            }
        }
        match self.search() {
            Some(true) => Nesting::Nests,
            Some(false) => Nesting::Crosses,
            None => Nesting::Undecided,
        }
    }

    fn merged(&self) -> Graph {
        let first_of = |vertex: usize| {
            let of = self.vertices.iter().find(|own| own.contains(&vertex));
            of.map_or(vertex, |own| own.start)
        };
        let mut graph = Graph::new();
        for pair in &self.edges {
            let [a, b] = pair.map(|end| match end {
                End::At(vertex) => first_of(vertex),
                End::AnyOf(body) => self.vertices[body].start,
            });
            graph.join(a, b);
        }
        graph
    }

    /// Whether what is left open can be chosen so that the graph is planar; `None` when that
    /// takes too long. What is open is left out meanwhile: a graph that crosses then always will.
    fn search(&mut self) -> Option<bool> {
        self.looked_at += 1;
        if self.looked_at > MOST_GRAPHS {
            return None;
        }
        let mut graph = Graph::new();
        for pair in &self.edges {
            if let [End::At(a), End::At(b)] = *pair {
                graph.join(a, b);
            }
        }
        if !graph.is_planar() {
            return Some(false);
        }
        // The last edges first: those are the trees.
        let open = self.edges.iter().rposition(is_open);
        let Some((edge, pair)) = open.map(|edge| (edge, self.edges[edge])) else {
            return Some(true);
        };
        let place = usize::from(matches!(pair[0], End::At(_)));
        let End::AnyOf(body) = pair[place] else {
            return Some(true);
        };
        let mut found = Some(false);
        for vertex in self.vertices[body].clone() {
            let hangs = matches!(pair[0], End::At(own) if self.hangs_on(vertex, own));
            if hangs {
                continue;
            }
            self.edges[edge][place] = End::At(vertex);
            found = self.search();
            if found != Some(false) {
                break;
            }
        }
        if found != Some(true) {
            self.edges[edge] = pair;
        }
        found
    }

    /// Whether a carrier is another one of its shaft or hangs on it, by what is chosen so far.
    fn hangs_on(&self, mut carrier: usize, other: usize) -> bool {
        while carrier != other {
            let hanging = self.trees().find_map(|pair| match *pair {
                [End::At(own), End::At(on)] if own == carrier => Some(on),
                _ => None,
            });
            let Some(on) = hanging else {
                return false;
            };
            carrier = on;
        }
        true
    }

    /// The edges that make one piece of the carriers of each shaft.
    fn trees(&self) -> impl Iterator<Item = &[End; 2]> {
        self.edges[self.first_tree..].iter()
    }
}

fn is_open(pair: &[End; 2]) -> bool {
    matches!(pair, [End::AnyOf(_), _] | [_, End::AnyOf(_)])
}

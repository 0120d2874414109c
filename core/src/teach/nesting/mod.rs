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

mod planarity;

use crate::model::coupling::Role;
use crate::train::{Body, Train};
use planarity::Graph;

/// How many graphs are looked at before a train with shared carriers is given up.
const MOST_GRAPHS: usize = 400;

/// Vertices of the edge of the half-plane, and of what lies beyond it.
const HOUSING: usize = 0;
const INPUT_END: usize = 1;
const OUTPUT_END: usize = 2;
const AXIS: usize = 3;
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
        Layouts::of(self).decide()
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
struct Layouts {
    /// The vertices of each body: the housing, then the shafts.
    vertices: Vec<std::ops::Range<usize>>,
    edges: Vec<[End; 2]>,
    /// From here on edges join carriers of one shaft.
    first_tree: usize,
    looked_at: usize,
}

impl Layouts {
    fn of(train: &Train) -> Self {
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
                0 | 1 if body == 0 => HOUSING..HOUSING + 1,
                count => take(count.max(1)),
            })
            .collect();
        let end = |of: Body| match &vertices[body(of)] {
            one if one.len() == 1 => End::At(one.start),
            _ => End::AnyOf(body(of)),
        };
        let mut edges: Vec<[End; 2]> = RIM.map(|(a, b)| [End::At(a), End::At(b)]).to_vec();
        if vertices[0].len() > 1 {
            edges.push([End::At(HOUSING), End::AnyOf(0)]);
        }
        let shaft = |shaft: usize| end(Body::Shaft(shaft));
        edges.push([End::At(INPUT_END), shaft(train.input())]);
        edges.push([End::At(OUTPUT_END), shaft(train.output())]);
        for element in 0..scenario.elements.len() {
            edges.push(train.ends(element).map(end));
        }
        for (index, coupling) in scenario.couplings.iter().enumerate() {
            let members = coupling.facts().members();
            let members = || members.iter().zip(train.members(index));
            let of_role = |role: Role| members().find(|(member, _)| member.role == role);
            let suns: Vec<End> = members()
                .filter(|(member, _)| member.role.is_sun())
                .map(|(_, &body)| end(body))
                .collect();
            if let Some((_, &carrier)) = of_role(Role::Carrier) {
                let place = carriers[body(carrier)].iter().position(|&at| at == index);
                let carrier = End::At(vertices[body(carrier)].start + place.unwrap_or(0));
                let ring = of_role(Role::Ring).map(|(_, &body)| end(body));
                edges.extend(suns.iter().copied().chain(ring).map(|end| [carrier, end]));
                if let [one, other] = suns[..] {
                    let set = End::At(take(1).start);
                    edges.extend([[one, other], [set, one], [set, other], [set, carrier]]);
                }
            } else if let (Some((_, &first)), Some((_, &second))) =
                (of_role(Role::First), of_role(Role::Second))
            {
                edges.push([first, second].map(end));
            }
        }
        Self {
            vertices,
            first_tree: edges.len(),
            edges,
            looked_at: 0,
        }
    }

    fn decide(mut self) -> Nesting {
        // With all carriers of a shaft as one vertex more can be drawn than in metal.
        if !self.merged().is_planar() {
            return Nesting::Crosses;
        }
        // Each carrier but a shaft's first hangs on another one of the shaft.
        for body in 0..self.vertices.len() {
            for vertex in self.vertices[body].clone().skip(1) {
                self.edges.push([End::At(vertex), End::AnyOf(body)]);
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
        self.edges[edge] = pair;
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

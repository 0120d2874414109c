//! Whether a graph can be drawn in the plane without crossings, decided exactly.
//!
//! The way of Demoucron, Malgrange and Pertuiset ("Graphes planaires: reconnaissance et
//! construction de représentations planaires topologiques", Revue française de recherche
//! opérationnelle 8, 1964): begin with a cycle, and lay one path after another through a face that
//! takes it, always of the piece that fits into the fewest faces. A piece without a face shows that
//! there is no drawing. Linear ways exist (Hopcroft and Tarjan, "Efficient planarity testing",
//! Journal of the ACM 21, 1974); for some fifty vertices this one is as quick and far shorter.

/// Most vertices of a graph: a set of them is one word.
pub const MOST_VERTICES: usize = 64;

/// A set of vertices, a bit each.
type Set = u64;

/// The neighbours around each vertex.
pub type Around = Vec<Vec<usize>>;

const fn bit(vertex: usize) -> Set {
    1 << vertex
}

fn members(set: Set) -> impl Iterator<Item = usize> {
    let mut rest = set;
    std::iter::from_fn(move || {
        let vertex = (rest != 0).then(|| rest.trailing_zeros() as usize)?;
        rest &= rest - 1;
        Some(vertex)
    })
}

/// A simple graph.
#[derive(Clone)]
pub struct Graph {
    neighbours: [Set; MOST_VERTICES],
}

impl Graph {
    pub const fn new() -> Self {
        Self {
            neighbours: [0; MOST_VERTICES],
        }
    }

    /// Joins two vertices; loops and edges that are there already change nothing.
    pub const fn join(&mut self, a: usize, b: usize) {
        if a != b {
            self.neighbours[a] |= bit(b);
            self.neighbours[b] |= bit(a);
        }
    }

    /// Whether no path leads from a vertex that has edges to another vertex.
    pub fn is_apart(&self, vertex: usize, from: usize) -> bool {
        let used = (0..MOST_VERTICES).filter(|&vertex| self.neighbours[vertex] != 0);
        let within: Set = used.map(bit).sum();
        let own = self.reached_from(bit(vertex) & within, within);
        own != 0 && own & bit(from) == 0
    }

    /// Whether the graph can be drawn without crossings.
    pub fn is_planar(&self) -> bool {
        let used = (0..MOST_VERTICES).filter(|&vertex| self.neighbours[vertex] != 0);
        self.is_planar_within(used.map(bit).sum())
    }

    /// The same of the part on some vertices: it is planar when each of its blocks is.
    fn is_planar_within(&self, within: Set) -> bool {
        if within.count_ones() < 5 {
            return true;
        }
        // Parts that hang together through one vertex at most are drawn by themselves.
        let cuts = std::iter::once(0).chain(members(within).map(bit));
        for cut in cuts {
            let first = self.reached(within & !cut);
            let others = within & !cut & !first;
            if others != 0 {
                return self.is_planar_within(first | cut) && self.is_planar_within(others | cut);
            }
        }
        self.faces(within, &mut |_| 0).is_some()
    }

    /// The graph as it is drawn without crossings: around each vertex its neighbours, the same way round of
    /// all; `None` where there is no such drawing, or the graph does not hang together. Where there are several ways,
    /// `choose` takes one of so many.
    pub fn drawn(&self, choose: &mut dyn FnMut(usize) -> usize) -> Option<Around> {
        let used = (0..MOST_VERTICES).filter(|&vertex| self.neighbours[vertex] != 0);
        let mut blocks = Vec::new();
        self.blocks(used.map(bit).sum(), &mut blocks)?;
        let mut around = vec![Vec::new(); MOST_VERTICES];
        for block in blocks {
            let mut faces = self.faces(block, choose)?;
            if choose(2) == 0 {
                faces.iter_mut().for_each(|face| face.reverse());
            }
            for vertex in members(block) {
                let ring = ring(vertex, &faces);
                let known: &mut Vec<usize> = &mut around[vertex];
                let at = choose(known.len() + 1);
                known.splice(at..at, ring);
            }
        }
        Some(around)
    }

    /// The blocks of the part on some vertices; `None` where it does not hang together.
    fn blocks(&self, within: Set, blocks: &mut Vec<Set>) -> Option<()> {
        if self.reached(within) != within {
            return None;
        }
        for cut in members(within) {
            let first = self.reached(within & !bit(cut));
            let others = within & !bit(cut) & !first;
            if others != 0 {
                self.blocks(first | bit(cut), blocks)?;
                return self.blocks(others | bit(cut), blocks);
            }
        }
        blocks.push(within);
        Some(())
    }

    /// All that hangs together with the first of some vertices.
    fn reached(&self, within: Set) -> Set {
        self.reached_from(within & within.wrapping_neg(), within)
    }

    /// All that hangs together with some vertices.
    fn reached_from(&self, mut reached: Set, within: Set) -> Set {
        loop {
            let next = members(reached).fold(reached, |all, at| all | self.neighbours[at]) & within;
            if next == reached {
                return reached;
            }
            reached = next;
        }
    }

    /// A shortest path from a vertex to any of `goals` through `through` only.
    fn path(&self, from: usize, through: Set, goals: Set) -> Option<Vec<usize>> {
        let mut before = [from; MOST_VERTICES];
        let (mut seen, mut front) = (bit(from), vec![from]);
        while !front.is_empty() {
            let mut next = Vec::new();
            for at in front {
                // A path has a vertex between its ends: their own edge is none.
                let goal = members(self.neighbours[at] & goals).next();
                if let Some(goal) = goal.filter(|_| at != from) {
                    let mut path = vec![goal, at];
                    let mut at = at;
                    while at != from {
                        at = before[at];
                        path.push(at);
                    }
                    return Some(path);
                }
                for new in members(self.neighbours[at] & through & !seen) {
                    seen |= bit(new);
                    before[new] = at;
                    next.push(new);
                }
            }
            front = next;
        }
        None
    }

    /// The faces of a graph that one vertex less leaves in one piece, each the same way round; `None` where it
    /// cannot be drawn without crossings.
    fn faces(
        &self,
        within: Set,
        choose: &mut dyn FnMut(usize) -> usize,
    ) -> Option<Vec<Vec<usize>>> {
        let Some(cycle) = self.cycle(within) else {
            return Some(vec![members(within).collect()]);
        };
        let mut drawn = Self::new();
        let mut placed: Set = cycle.iter().copied().map(bit).sum();
        for (at, &vertex) in cycle.iter().enumerate() {
            drawn.join(vertex, cycle[(at + 1) % cycle.len()]);
        }
        let mut faces = vec![cycle.iter().rev().copied().collect(), cycle];
        loop {
            // The piece that fits into the fewest faces, the fewest first.
            let mut chosen: Option<(Vec<usize>, Piece)> = None;
            for piece in self.pieces(&drawn, within, placed) {
                let fits = |face: &Vec<usize>| {
                    let face: Set = face.iter().copied().map(bit).sum();
                    piece.contacts & !face == 0
                };
                let fitting = (0..faces.len()).filter(|&face| fits(&faces[face]));
                let fitting: Vec<usize> = fitting.collect();
                if fitting.is_empty() {
                    return None;
                }
                if chosen
                    .as_ref()
                    .is_none_or(|(least, _)| fitting.len() < least.len())
                {
                    chosen = Some((fitting, piece));
                }
            }
            let Some((fitting, piece)) = chosen else {
                return Some(faces);
            };
            let face = fitting[choose(fitting.len())];
            let path = self.path_of(&piece)?;
            for pair in path.windows(2) {
                drawn.join(pair[0], pair[1]);
            }
            placed |= path.iter().fold(0, |all, &vertex| all | bit(vertex));
            let whole = faces.swap_remove(face);
            faces.extend(divided(&whole, &path));
        }
    }

    fn cycle(&self, within: Set) -> Option<Vec<usize>> {
        let from = members(within).next()?;
        let to = members(self.neighbours[from] & within).next()?;
        self.path(from, within & !bit(to), bit(to))
    }

    /// What is not drawn yet, as pieces: an edge, or undrawn vertices that hang together.
    fn pieces(&self, drawn: &Self, within: Set, placed: Set) -> Vec<Piece> {
        let mut pieces = Vec::new();
        for a in members(placed) {
            let missing = self.neighbours[a] & placed & !drawn.neighbours[a];
            for b in members(missing).filter(|&b| a < b) {
                pieces.push(Piece {
                    inside: 0,
                    contacts: bit(a) | bit(b),
                });
            }
        }
        let mut rest = within & !placed;
        while rest != 0 {
            let inside = self.reached(rest);
            rest &= !inside;
            let around = members(inside).fold(0, |all, at| all | self.neighbours[at]);
            pieces.push(Piece {
                inside,
                contacts: around & placed,
            });
        }
        pieces
    }

    /// A path of a piece from one of its contacts to another.
    fn path_of(&self, piece: &Piece) -> Option<Vec<usize>> {
        let from = members(piece.contacts).next()?;
        let goals = piece.contacts & !bit(from);
        match piece.inside {
            0 => Some(vec![members(goals).next()?, from]),
            inside => self.path(from, inside, goals),
        }
    }
}

/// A part of a graph that hangs together outside what is drawn.
struct Piece {
    /// Its undrawn vertices.
    inside: Set,
    /// The drawn vertices it is joined to.
    contacts: Set,
}

/// The neighbours around a vertex of a block, by the block's faces.
fn ring(vertex: usize, faces: &[Vec<usize>]) -> Vec<usize> {
    // After which neighbour each comes.
    let mut after = Vec::new();
    for face in faces {
        for (at, _) in face.iter().enumerate().filter(|&(_, &own)| own == vertex) {
            let count = face.len();
            after.push((face[(at + count - 1) % count], face[(at + 1) % count]));
        }
    }
    let Some(&(first, mut next)) = after.first() else {
        return Vec::new();
    };
    let mut ring = vec![first];
    while next != first {
        ring.push(next);
        let Some(&(_, then)) = after.iter().find(|pair| pair.0 == next) else {
            break;
        };
        next = then;
    }
    ring
}

/// The two faces that a path between two of its corners makes of a face.
fn divided(face: &[usize], path: &[usize]) -> [Vec<usize>; 2] {
    let (Some(&from), Some(&to)) = (path.first(), path.last()) else {
        return [face.to_vec(), Vec::new()];
    };
    // The corners from one end of the path round to the other.
    let round = |from: usize, to: usize| {
        let corners = face.iter().cycle().copied();
        let corners = corners.skip_while(move |&at| at != from).take(face.len());
        let mut way: Vec<usize> = corners.take_while(|&at| at != to).collect();
        way.push(to);
        way
    };
    let (mut one, mut other) = (round(to, from), round(from, to));
    let between = &path[1..path.len() - 1];
    one.extend(between);
    other.extend(between.iter().rev());
    [one, other]
}

#[cfg(test)]
mod tests {
    use super::*;

    fn graph(edges: impl IntoIterator<Item = (usize, usize)>) -> Graph {
        let mut graph = Graph::new();
        edges.into_iter().for_each(|(a, b)| graph.join(a, b));
        graph
    }

    fn complete(count: usize) -> Vec<(usize, usize)> {
        let pairs = (0..count).flat_map(|a| (0..a).map(move |b| (a, b)));
        pairs.collect()
    }

    fn utilities() -> Vec<(usize, usize)> {
        (0..9).map(|pair| (pair / 3, 3 + pair % 3)).collect()
    }

    /// Every edge of a graph by way of a vertex of its own: as planar as before.
    fn subdivided(edges: &[(usize, usize)]) -> Vec<(usize, usize)> {
        let ways = edges.iter().enumerate();
        ways.flat_map(|(at, &(a, b))| [(a, 20 + at), (20 + at, b)])
            .collect()
    }

    #[test]
    fn the_two_graphs_of_kuratowski_are_not_planar_and_one_edge_less_is() {
        // C. Kuratowski, "Sur le problème des courbes gauches en topologie", Fundamenta
        // Mathematicae 15, 1930 [M].
        for edges in [complete(5), utilities()] {
            assert!(!graph(edges.clone()).is_planar());
            assert!(!graph(subdivided(&edges)).is_planar());
            for left_out in 0..edges.len() {
                let mut fewer = edges.clone();
                fewer.swap_remove(left_out);
                assert!(graph(fewer.clone()).is_planar());
                assert!(graph(subdivided(&fewer)).is_planar());
            }
        }
    }

    #[test]
    fn one_crossed_block_among_good_ones_is_found() {
        let good = complete(4);
        let bad = utilities();
        let shifted = bad.iter().map(|&(a, b)| (a + 3, b + 3));
        assert!(graph(good.iter().copied()).is_planar());
        assert!(!graph(good.into_iter().chain(shifted)).is_planar());
    }
}

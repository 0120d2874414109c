//! Cheapest ways across a grid of rows and columns, where bends cost, and lines that are in the way
//! can be crossed at a price.
//!
//! A crate of its own, since nearly all the time in laying out a train goes here: it is compiled
//! for speed, the drawings for size.

mod buckets;
mod ground;
mod nodes;

use buckets::Buckets;
pub use ground::{Ground, NO_WAY, Owner};
pub use nodes::Nodes;

/// A place on the grid: row times the number of columns, plus column.
pub type Node = usize;

/// How a node was reached: along its row (0), across it (1), or as a start.
const ARRIVALS: usize = 4;
const START: usize = 2;

/// How a node was reached in one of the ways there are.
#[derive(Debug, Clone, Copy)]
struct Reached {
    cost: u32,
    /// The state before.
    before: u32,
}

const UNREACHED: Reached = Reached {
    cost: u32::MAX,
    before: u32::MAX,
};

/// Least costs from some starts, as far as they have been asked for (Dijkstra, with a bucket a cost:
/// R. B. Dial, "Algorithm 360", Communications of the ACM 12, 1969).
pub struct Search<'a> {
    ground: &'a Ground,
    member: u8,
    starts: Nodes,
    /// For each node, how it was reached along its row (0) or across it (1).
    reached: Vec<[Reached; 2]>,
    queue: Buckets,
}

impl<'a> Search<'a> {
    /// A search for a member's ways that has not left its starts. Not inlined: it is to stay as fast
    /// as this crate is compiled.
    #[inline(never)]
    pub fn new(ground: &'a Ground, member: u8, starts: Nodes) -> Self {
        let nodes = ground.cells().len();
        let mut queue = Buckets::new(ground.dearest(), nodes);
        for start in starts.all() {
            queue.push(0, start * ARRIVALS + START);
        }
        Self {
            reached: vec![[UNREACHED; 2]; nodes],
            queue,
            ground,
            member,
            starts,
        }
    }

    /// Spreads as far as `most` reaches.
    // Not inlined, as `Search::new`.
    #[inline(never)]
    pub fn spread(&mut self, most: u32) {
        while let Some((cost, state)) = self.queue.pop(most) {
            self.step(cost, state);
        }
    }

    /// Spreads to the first of the goals, as far as `most` reaches.
    // Not inlined, as `Search::new`.
    #[inline(never)]
    pub fn spread_to(&mut self, goals: &Nodes, most: u32) {
        while let Some((cost, state)) = self.queue.pop(most) {
            if goals.have(state / ARRIVALS) {
                break;
            }
            self.step(cost, state);
        }
    }

    /// Goes on from a state to all its neighbours. Not inlined: it is large, and asked for in two places.
    #[inline(never)]
    fn step(&mut self, cost: u32, state: usize) {
        let (node, arrival) = (state / ARRIVALS, state % ARRIVALS);
        if arrival != START && cost > self.reached[node][arrival].cost {
            return;
        }
        let cells = self.ground.cells();
        let here = &cells[node];
        let foreign = here.foreign(self.member);
        for way in [0, 1] {
            let straight = arrival == way;
            // Neither along a line nor off to the side where one is crossed.
            if foreign[way] || !straight && foreign[1 - way] {
                continue;
            }
            let bends = !straight && arrival != START;
            let cost = cost + if bends { self.ground.bend() } else { 0 };
            let stride = if way == 0 { 1 } else { self.ground.columns() };
            if here.steps[way] != NO_WAY {
                self.arrive(node + stride, way, cost + u32::from(here.steps[way]), state);
            }
            let back = node.checked_sub(stride);
            if let Some(back) = back
                && cells[back].steps[way] != NO_WAY
            {
                self.arrive(back, way, cost + u32::from(cells[back].steps[way]), state);
            }
        }
    }

    /// Comes to a node along its row (0) or across it (1).
    // Inline: it is the innermost step, asked for in two places.
    #[inline(always)]
    fn arrive(&mut self, node: Node, way: usize, cost: u32, before: usize) {
        let there = &self.ground.cells()[node];
        let foreign = there.foreign(self.member);
        let crosses = foreign[1 - way];
        if foreign[way] || crosses && there.solid {
            return;
        }
        let reached = &mut self.reached[node];
        let mut total = cost;
        if crosses {
            total += self.ground.crossing();
        } else if reached[1 - way].cost.saturating_add(self.ground.bend()) <= total
            || self.starts.have(node)
        {
            // Whoever came the other way, and turns, is there for no more.
            return;
        }
        if total < reached[way].cost {
            reached[way] = Reached {
                cost: total,
                before: before as u32,
            };
            self.queue.push(total, node * ARRIVALS + way);
        }
    }

    /// Cost of reaching a node, the least where the search has spread as far; `None` where it has
    /// found no way.
    pub fn cost(&self, node: Node) -> Option<u32> {
        if self.starts.have(node) {
            return Some(0);
        }
        let least = self.reached[node].iter().map(|reached| reached.cost).min();
        least.filter(|&cost| cost != UNREACHED.cost)
    }

    /// The nodes of the cheapest way found to a node, from a start on.
    pub fn way(&self, node: Node) -> Option<Vec<Node>> {
        let cost = self.cost(node)?;
        let mut nodes = vec![node];
        if cost > 0 {
            let [along, across] = self.reached[node];
            let mut last = if along.cost == cost { along } else { across };
            loop {
                let (node, arrival) = (
                    last.before as usize / ARRIVALS,
                    last.before as usize % ARRIVALS,
                );
                nodes.push(node);
                if arrival == START {
                    break;
                }
                last = self.reached[node][arrival];
            }
        }
        nodes.reverse();
        Some(nodes)
    }
}

#[cfg(test)]
mod tests;

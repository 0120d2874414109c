//! Cheapest ways across a grid of rows and columns, where bends cost, and lines that are in the way
//! can be crossed at a price.
//!
//! A crate of its own, since nearly all the time in laying out a train goes here: it is compiled
//! for speed, the drawings for size.

mod buckets;
mod lines;
mod nodes;

use buckets::Buckets;
pub use lines::{Lines, Owner};
pub use nodes::Nodes;

/// A place on the grid: row times the number of columns, plus column.
pub type Node = usize;

/// What it costs to go about a grid.
#[derive(Debug, Clone)]
pub struct Ground {
    /// Number of columns.
    pub columns: usize,
    /// What a step from each node along its row costs (0), and one along its column to the next
    /// row (1), the same both ways; [`NO_WAY`] where there is none.
    pub steps: [Vec<u16>; 2],
    /// What turning costs.
    pub bend: u16,
    /// What crossing a line costs.
    pub crossing: u16,
}

/// In place of what a step costs, which is never nothing.
pub const NO_WAY: u16 = 0;

/// How a node was reached: along its row (0), or across it (1).
const ARRIVALS: usize = 2;

/// How a node was reached in one of the ways there are. Starts are states beyond those of all nodes.
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
    lines: &'a Lines,
    member: u8,
    starts: Nodes,
    states: Vec<Reached>,
    queue: Buckets,
}

impl<'a> Search<'a> {
    /// A search for a member's ways that has not left its starts. Not inlined: it is to stay as fast
    /// as this crate is compiled.
    #[inline(never)]
    pub fn new(ground: &'a Ground, lines: &'a Lines, member: u8, starts: Nodes) -> Self {
        let dearest = ground.steps.iter().flatten().max();
        let dearest = dearest.map_or(0, |&step| usize::from(step));
        let dearest = dearest + usize::from(ground.bend) + usize::from(ground.crossing);
        let mut queue = Buckets::new(dearest, lines.nodes());
        for start in starts.iter() {
            queue.push(0, lines.nodes() * ARRIVALS + start);
        }
        Self {
            states: vec![UNREACHED; lines.nodes() * ARRIVALS],
            queue,
            ground,
            lines,
            member,
            starts,
        }
    }

    /// Spreads as far as `most` reaches.
    #[inline(never)]
    pub fn spread(&mut self, most: u32) {
        while let Some((cost, state)) = self.queue.pop(most) {
            self.step(cost, state);
        }
    }

    /// Spreads to the first of the goals, as far as `most` reaches.
    #[inline(never)]
    pub fn spread_to(&mut self, goals: &Nodes, most: u32) {
        while let Some((cost, state)) = self.queue.pop(most) {
            if goals.have(self.node(state)) {
                break;
            }
            self.step(cost, state);
        }
    }

    const fn node(&self, state: usize) -> Node {
        let all = self.lines.nodes() * ARRIVALS;
        if state < all {
            state / ARRIVALS
        } else {
            state - all
        }
    }

    /// Goes on from a state to all its neighbours.
    fn step(&mut self, cost: u32, state: usize) {
        let reached = self.states.get(state);
        if reached.is_some_and(|reached| cost > reached.cost) {
            return;
        }
        let node = self.node(state);
        let arrival = reached.map(|_| state % ARRIVALS);
        let here = self.lines.foreign(node, self.member);
        for way in [0, 1] {
            let straight = arrival == Some(way);
            // Neither along a line nor off to the side where one is crossed.
            if here[way] || !straight && here[1 - way] {
                continue;
            }
            let bends = !straight && arrival.is_some();
            let bend = if bends { self.ground.bend } else { 0 };
            let stride = if way == 0 { 1 } else { self.ground.columns };
            let back = node.checked_sub(stride);
            for (from, next) in [
                (Some(node), node + stride),
                (back, node.wrapping_sub(stride)),
            ] {
                let step = from.map_or(NO_WAY, |from| self.ground.steps[way][from]);
                if step == NO_WAY {
                    continue;
                }
                let there = self.lines.foreign(next, self.member);
                let crosses = there[1 - way];
                if there[way] || crosses && self.lines.is_solid(next) {
                    continue;
                }
                let crossing = if crosses { self.ground.crossing } else { 0 };
                let total = cost + u32::from(step) + u32::from(bend) + u32::from(crossing);
                // Whoever came another way, and turns, is there for no more.
                let turned = self.states[next * ARRIVALS + 1 - way].cost;
                let others = turned.saturating_add(self.ground.bend.into());
                if !crosses && (others <= total || self.starts.have(next)) {
                    continue;
                }
                let next_state = next * ARRIVALS + way;
                let reached = &mut self.states[next_state];
                if total < reached.cost {
                    reached.cost = total;
                    reached.before = state as u32;
                    self.queue.push(total, next_state);
                }
            }
        }
    }

    /// Cost of reaching a node, the least where the search has spread as far; `None` where it has
    /// found no way.
    pub fn cost(&self, node: Node) -> Option<u32> {
        if self.starts.have(node) {
            return Some(0);
        }
        let costs = self.states[node * ARRIVALS..][..ARRIVALS].iter();
        let least = costs.map(|reached| reached.cost).min();
        least.filter(|&cost| cost != UNREACHED.cost)
    }

    /// The nodes of the cheapest way found to a node, from a start on.
    pub fn way(&self, node: Node) -> Option<Vec<Node>> {
        let cost = self.cost(node)?;
        let mut nodes = vec![node];
        if cost > 0 {
            let first = node * ARRIVALS;
            let mut state = first + usize::from(self.states[first].cost > cost);
            while let Some(reached) = self.states.get(state) {
                state = reached.before as usize;
                nodes.push(self.node(state));
            }
        }
        nodes.reverse();
        Some(nodes)
    }
}

#[cfg(test)]
mod tests;

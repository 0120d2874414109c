//! Every subset of a list of equations, by a tree that shares work.

use super::{Terms, Turning};

/// What is called at each leaf: the subset as bits, the motions narrowed by it, and how many of
/// its equations held already. It gives the motions back, whose memory the next leaf uses.
pub type Visit<'v> = &'v mut dyn FnMut(u32, Turning, usize) -> Turning;

/// Narrows `turning` by each of the 2ⁿ subsets of n equations, in ascending order of their bits.
///
/// The subsets are the leaves of a tree that decides one equation a level, from the last to the
/// first; each inner node narrows its parent's motions once, and everything below shares them.
pub fn for_each_subset(turning: Turning, equations: &[Terms], visit: Visit<'_>) {
    let mut walk = Walk {
        visit,
        spare: Vec::new(),
    };
    walk.below(equations, 0, turning, 0);
}

struct Walk<'v> {
    visit: Visit<'v>,
    /// Memory of nodes that are done with, for those to come.
    spare: Vec<Turning>,
}

impl Walk<'_> {
    /// Visits what lies below a node: `undecided` are the equations still to be decided.
    fn below(&mut self, undecided: &[Terms], chosen: u32, turning: Turning, surplus: usize) {
        let Some((equation, undecided)) = undecided.split_last() else {
            let done = (self.visit)(chosen, turning, surplus);
            self.spare.push(done);
            return;
        };
        let mut narrower = self.spare.pop().unwrap_or_else(Turning::empty);
        let mut surplus_with = surplus;
        if !turning.constrained_into(equation, &mut narrower) {
            narrower.clone_from(&turning);
            surplus_with += 1;
        }
        let with = chosen | 1 << undecided.len();
        self.below(undecided, chosen, turning, surplus);
        self.below(undecided, with, narrower, surplus_with);
    }
}

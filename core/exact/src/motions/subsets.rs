//! Every subset of a list of equations, with the work shared that subsets have in common.

use super::{State, Terms, Turning};

/// What is called for each subset: the subset as bits, the motions narrowed by it, how many of its
/// equations held already, and the state that this is.
pub type Visit<'v> = &'v mut dyn FnMut(u32, &Turning, usize, &State);

/// Narrows `turning` by each of the 2ⁿ subsets of n equations, in ascending order of their bits,
/// and decides what each makes of shaft `output`.
///
/// A subset's parent is the subset without its lowest bit, so that each costs one narrowing of
/// motions that are known already. Of the subsets with one and the same lowest bit only the
/// latest is still a parent of subsets to come: n places hold all that has to be kept.
pub fn for_each_subset(turning: &Turning, equations: &[Terms], output: usize, visit: Visit<'_>) {
    visit(0, turning, 0, &State::of(turning, output, 0));
    let mut places: Vec<Place> = equations.iter().map(|_| Place::below(turning)).collect();
    for subset in 1..1_u32 << equations.len() {
        let own = lowest_bit(subset);
        let (lower, higher) = places.split_at_mut(own + 1);
        let place_at = |bit: usize| higher.get(bit - own - 1);
        let parent = place_at(lowest_bit(subset & (subset - 1)));
        let (known_in, surplus) = parent.map_or((NO_BIT, 0), |x| (x.motions_in, x.surplus));
        let known = place_at(known_in).map_or(turning, |place| &place.motions);
        let place = &mut lower[own];
        let narrower = known.constrained_into(&equations[own], &mut place.motions);
        (place.motions_in, place.surplus) = if narrower {
            (own, surplus)
        } else {
            (known_in, surplus + 1)
        };
        let motions = if narrower { &place.motions } else { known };
        let state = State::of(motions, output, place.surplus);
        visit(subset, motions, place.surplus, &state);
    }
}

/// Stands for the lowest bit of the empty subset, above all others.
const NO_BIT: usize = u32::BITS as usize;

fn lowest_bit(subset: u32) -> usize {
    subset.trailing_zeros() as usize
}

/// The latest subset with a certain lowest bit.
struct Place {
    motions: Turning,
    /// The bit of the place that holds this subset's motions: its own, or that of an ancestor
    /// whose motions satisfy the equations since then already.
    motions_in: usize,
    surplus: usize,
}

impl Place {
    fn below(turning: &Turning) -> Self {
        Self {
            motions: turning.room(),
            motions_in: NO_BIT,
            surplus: 0,
        }
    }
}

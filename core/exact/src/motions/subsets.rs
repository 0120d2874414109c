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

/// As [`for_each_subset`], of the subsets of a list, in its order.
///
/// From its highest bit downwards a subset leads through others, which are kept until another
/// with the same lowest bit takes their place: subsets that are alike in their higher bits share
/// that work.
pub fn for_each_of(
    subsets: &mut dyn Iterator<Item = u32>,
    turning: &Turning,
    equations: &[Terms],
    output: usize,
    visit: Visit<'_>,
) {
    let mut places: Vec<Place> = equations.iter().map(|_| Place::below(turning)).collect();
    for subset in subsets {
        let (mut motions_in, mut surplus, mut higher_bits) = (NO_BIT, 0, 0);
        for own in (0..equations.len()).rev() {
            let bit = 1 << own;
            if subset & bit == 0 {
                continue;
            }
            higher_bits |= bit;
            let (lower, higher) = places.split_at_mut(own + 1);
            let place = &mut lower[own];
            if place.subset != higher_bits {
                let known = higher.get(motions_in - own - 1);
                let known = known.map_or(turning, |place| &place.motions);
                let narrower = known.narrow(&equations[own], &mut place.motions);
                place.subset = higher_bits;
                (place.motions_in, place.surplus) = if narrower {
                    (own, surplus)
                } else {
                    (motions_in, surplus + 1)
                };
            }
            (motions_in, surplus) = (place.motions_in, place.surplus);
        }
        let known = places.get(motions_in);
        let motions = known.map_or(turning, |place| &place.motions);
        visit(
            higher_bits,
            motions,
            surplus,
            &State::of(motions, output, surplus),
        );
    }
}

/// Stands for the lowest bit of the empty subset, above all others.
const NO_BIT: usize = u32::BITS as usize;

fn lowest_bit(subset: u32) -> usize {
    subset.trailing_zeros() as usize
}

/// The latest subset with a certain lowest bit.
struct Place {
    /// Which subset, where they do not come in ascending order; the empty one has no place.
    subset: u32,
    motions: Turning,
    /// The bit of the place that holds this subset's motions: its own, or that of an ancestor
    /// whose motions satisfy the equations since then already.
    motions_in: usize,
    surplus: usize,
}

impl Place {
    fn below(turning: &Turning) -> Self {
        Self {
            subset: 0,
            motions: turning.room(),
            motions_in: NO_BIT,
            surplus: 0,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::Motions;

    /// Whatever was visited before, a subset is what it is by itself.
    #[test]
    fn the_order_of_a_list_does_not_matter() {
        let set = |sun, carrier, ring| vec![(sun, 20), (carrier, -100), (ring, 80)];
        let mut motions = Motions::free(5);
        for terms in [set(0, 1, 2), set(1, 3, 4)] {
            motions = motions.constrained(&terms).unwrap_or(motions);
        }
        let turning = motions.turning(0);
        // The last two say the same.
        let equations = [
            vec![(2, 1)],
            vec![(4, 1)],
            vec![(1, 1), (3, -1)],
            vec![(1, 1), (4, -1)],
        ];
        let mut alone = Vec::new();
        for_each_subset(
            &turning,
            &equations,
            3,
            &mut |_, turning, surplus, state| {
                let speeds: Vec<_> = (0..5).map(|shaft| turning.speed(shaft)).collect();
                alone.push((turning.degrees_of_freedom(), surplus, state.clone(), speeds));
            },
        );
        // Every subset after every other; bits beyond the equations mean nothing.
        let mut pairs = (0..256).flat_map(|pair| [pair & 15 | 16, pair >> 4]);
        let mut visited = 0;
        for_each_of(
            &mut pairs,
            &turning,
            &equations,
            3,
            &mut |subset, turning, surplus, state| {
                let (freedoms, same_surplus, same_state, speeds) = &alone[subset as usize];
                assert_eq!(turning.degrees_of_freedom(), *freedoms, "{subset:b}");
                assert_eq!((surplus, state), (*same_surplus, same_state), "{subset:b}");
                for (shaft, speed) in speeds.iter().enumerate() {
                    assert_eq!(&turning.speed(shaft), speed, "{subset:b}");
                    assert_eq!(turning.determines(shaft), speed.is_some());
                    let nearest = speed.as_ref().map(|speed| speed.to_f64());
                    assert_eq!(turning.nearest(&[(shaft, 1)]), nearest);
                }
                visited += 1;
            },
        );
        assert_eq!(visited, 512);
    }
}

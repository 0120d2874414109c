//! Going from one subset of a list of equations to another, with the work shared that subsets have
//! in common.

use std::cell::Cell;

use super::{Terms, Turning};

/// Motions narrowed by one subset of a list of equations after the other.
///
/// From its highest bit downwards a subset leads through others, which are kept until another with
/// the same lowest bit takes their place: subsets that are alike in their higher bits share that
/// work. In ascending order each costs one narrowing of motions that are known already, since its
/// parent, the subset without its lowest bit, is then still there.
pub struct Walk<'w> {
    turning: &'w Turning,
    equations: &'w [Terms],
    /// Of each equation: as many places hold all that has to be kept.
    places: Vec<Place>,
}

/// What a subset of the equations leaves.
pub struct Visited<'w> {
    /// The motions.
    pub motions: &'w Turning,
    /// How many of its equations held already.
    pub surplus: usize,
}

/// The latest subset with a certain lowest bit.
struct Place {
    /// None is the empty one, which has no place.
    subset: u32,
    motions: Turning,
    known: Known,
}

/// What is known of a subset.
#[derive(Clone, Copy)]
struct Known {
    /// The bit of the place that holds its motions: its own, or that of an ancestor
    /// whose motions satisfy the equations since then already.
    motions_in: usize,
    surplus: usize,
}

impl Known {
    const NONE: Self = Self {
        motions_in: NO_BIT,
        surplus: 0,
    };
}

/// Stands for the lowest bit of the empty subset, above all others.
const NO_BIT: usize = u32::BITS as usize;

fn lowest_bit(subset: u32) -> usize {
    subset.trailing_zeros() as usize
}

thread_local! {
    /// The places of the last walk: most walks are so short that memory of their own would take
    /// a tenth of their time.
    static PLACES: Cell<Vec<Place>> = const { Cell::new(Vec::new()) };
}

impl<'w> Walk<'w> {
    /// A walk that narrows `turning`.
    pub fn new(turning: &'w Turning, equations: &'w [Terms]) -> Self {
        let mut places = PLACES.take();
        for place in &mut places {
            place.subset = 0;
        }
        while places.len() < equations.len() {
            places.push(Place {
                subset: 0,
                motions: turning.room(),
                known: Known::NONE,
            });
        }
        Self {
            turning,
            equations,
            places,
        }
    }

    /// Visits all subsets, as bits in ascending order.
    // Inline, as `Columns::narrow_here`: calls of a visit that is not known by itself would take a
    // twentieth of the time, and an eighth in a browser, where they go through a table.
    #[inline(always)]
    pub fn all(mut self, mut visit: impl FnMut(u32, Visited<'_>)) {
        let (turning, equations) = (self.turning, self.equations);
        let places = &mut self.places[..equations.len()];
        for subset in 0..1_u32 << equations.len() {
            let (motions, surplus) = if subset == 0 {
                (turning, 0)
            } else {
                // The parent of a subset is always there: only those in between have other places.
                let parent = places.get(lowest_bit(subset & (subset - 1)));
                let known = parent.map_or(Known::NONE, |place| place.known);
                let narrow =
                    |wider: &Turning, terms: &_, into: &mut _| wider.constrained_into(terms, into);
                step(places, turning, equations, subset, known, narrow)
            };
            visit(subset, Visited { motions, surplus });
        }
    }

    /// What a subset, as bits, makes of the motions; bits beyond the equations mean nothing.
    pub fn to(&mut self, subset: u32) -> Visited<'_> {
        let known = self.lead_to(subset & ((1 << self.equations.len()) - 1));
        let place = self.places.get(known.motions_in);
        let motions = place.map_or(self.turning, |place| &place.motions);
        Visited {
            motions,
            surplus: known.surplus,
        }
    }

    /// Narrows the motions by a subset from the nearest that is known.
    fn lead_to(&mut self, subset: u32) -> Known {
        self.known(subset).unwrap_or_else(|| {
            let parent = self.lead_to(subset & (subset - 1));
            step(
                &mut self.places,
                self.turning,
                self.equations,
                subset,
                parent,
                Turning::narrow,
            );
            self.places[lowest_bit(subset)].known
        })
    }

    /// What is known of a subset, if that and its motions are still there.
    fn known(&self, subset: u32) -> Option<Known> {
        if subset == 0 {
            return Some(Known::NONE);
        }
        let place = &self.places[lowest_bit(subset)];
        let higher_bits = || subset >> place.known.motions_in << place.known.motions_in;
        let holds = |holder: &Place| holder.subset == higher_bits();
        let there = self.places.get(place.known.motions_in).is_none_or(holds);
        (place.subset == subset && there).then_some(place.known)
    }
}

/// Narrows what is known of a subset's parent by the equation of its lowest bit; what is left, and how
/// many equations held already.
// Inline for the walk, as `Columns::narrow_here`.
#[inline(always)]
fn step<'p>(
    places: &'p mut [Place],
    turning: &'p Turning,
    equations: &[Terms],
    subset: u32,
    parent: Known,
    narrow: impl Fn(&Turning, &Terms, &mut Turning) -> bool,
) -> (&'p Turning, usize) {
    let own = lowest_bit(subset);
    let (lower, higher) = places.split_at_mut(own + 1);
    let wider = higher.get(parent.motions_in.wrapping_sub(own + 1));
    let wider = wider.map_or(turning, |place| &place.motions);
    let place = &mut lower[own];
    place.subset = subset;
    if narrow(wider, &equations[own], &mut place.motions) {
        place.known = Known {
            motions_in: own,
            surplus: parent.surplus,
        };
        (&place.motions, parent.surplus)
    } else {
        place.known = Known {
            motions_in: parent.motions_in,
            surplus: parent.surplus + 1,
        };
        (wider, parent.surplus + 1)
    }
}

impl Drop for Walk<'_> {
    fn drop(&mut self) {
        PLACES.set(std::mem::take(&mut self.places));
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::{Motions, State};

    /// Whatever was visited before, a subset is what it is by itself.
    #[test]
    fn the_order_of_a_list_does_not_matter() {
        // The last two say the same.
        let equations = [
            vec![(2, 1)],
            vec![(4, 1)],
            vec![(1, 1), (3, -1)],
            vec![(1, 1), (4, -1)],
        ];
        check(&equations);
        // Now the first two do: of what the first leaves as it is, the motions are in a place that others take meanwhile.
        let [a, b, c, d] = equations;
        check(&[d, c, b, a]);
    }

    #[track_caller]
    fn check(equations: &[Terms; 4]) {
        let set = |sun, carrier, ring| vec![(sun, 20), (carrier, -100), (ring, 80)];
        let mut motions = Motions::free(5);
        for terms in [set(0, 1, 2), set(1, 3, 4)] {
            motions = motions.constrained(&terms).unwrap_or(motions);
        }
        let turning = motions.turning(0);
        let mut alone = Vec::new();
        for subset in 0..16 {
            let mut walk = Walk::new(&turning, equations);
            let Visited { motions, surplus } = walk.to(subset);
            let state = State::of(motions, 3, surplus);
            let speeds: Vec<_> = (0..5).map(|shaft| motions.speed(shaft)).collect();
            alone.push((motions.degrees_of_freedom(), surplus, state, speeds));
        }
        // In ascending order.
        let mut visits = 0;
        Walk::new(&turning, equations).all(|subset, visited| {
            let (freedoms, surplus, state, _) = &alone[subset as usize];
            assert_eq!(visited.motions.degrees_of_freedom(), *freedoms);
            let now = State::of(visited.motions, 3, visited.surplus);
            assert_eq!((visited.surplus, &now), (*surplus, state));
            visits += 1;
        });
        assert_eq!(visits, 16);
        // Every subset after every other; bits beyond the equations mean nothing.
        let mut walk = Walk::new(&turning, equations);
        for subset in (0..256).flat_map(|pair| [pair & 15 | 16, pair >> 4]) {
            let (freedoms, same_surplus, same_state, speeds) = &alone[(subset & 15) as usize];
            let Visited { motions, surplus } = walk.to(subset);
            let state = State::of(motions, 3, surplus);
            assert_eq!(motions.degrees_of_freedom(), *freedoms, "{subset:b}");
            assert_eq!((surplus, &state), (*same_surplus, same_state), "{subset:b}");
            for (shaft, speed) in speeds.iter().enumerate() {
                assert_eq!(&motions.speed(shaft), speed, "{subset:b}");
                assert_eq!(motions.determines(shaft), speed.is_some());
                let nearest = speed.as_ref().map(|speed| speed.to_f64());
                assert_eq!(motions.nearest(&[(shaft, 1)]), nearest);
            }
        }
    }
}

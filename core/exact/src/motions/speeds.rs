//! The speeds of all shafts, read together.

use super::Turning;
use crate::fraction::Fraction;

/// The speeds of all shafts per input turn, in memory that serves for one motion after the other.
///
/// Nearly all are short numbers: kept as no more than these, they are written and read faster than fractions,
/// which would first have to look whether there is memory of an older one to give back.
#[derive(Debug, Default)]
pub struct Speeds {
    /// Each in lowest terms, numerator first; [`UNDETERMINED`] where nothing decides it.
    pub(super) short: Vec<[i64; 2]>,
    /// All of them where one is not short, and only then.
    any: Vec<Option<Fraction>>,
}

/// A speed that nothing decides, among short ones.
pub(super) const UNDETERMINED: [i64; 2] = [0, 0];

/// A speed of zero, among short ones.
pub(super) const AT_REST: [i64; 2] = [0, 1];

/// The input's own speed, among short ones.
pub(super) const AS_INPUT: [i64; 2] = [1, 1];

impl Speeds {
    /// Speed of each shaft; `None` where nothing decides it.
    pub fn iter(&self) -> impl Iterator<Item = Option<Fraction>> {
        let read = |&speed: &[i64; 2]| (speed != UNDETERMINED).then(|| Fraction::of_lowest(speed));
        self.short.iter().map(read).chain(self.any.iter().cloned())
    }

    /// Short speeds of so many shafts, whatever they are.
    // Apart, so that who has the room already needs no memory for what makes it.
    #[cold]
    #[inline(never)]
    pub(super) fn make_room(&mut self, shafts: usize) {
        self.any.clear();
        self.short.resize(shafts, UNDETERMINED);
    }

    /// Reads speeds of any length, one by one; how many of them are determined.
    #[cold]
    #[inline(never)]
    pub(super) fn read_any(&mut self, shafts: usize, turning: &Turning) -> usize {
        self.short.clear();
        self.any.clear();
        self.any
            .extend((0..shafts).map(|shaft| turning.speed(shaft)));
        self.any.iter().flatten().count()
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::{Motions, Term};

    /// Four shafts, of which the last is joined to nothing. The input, the first, turns the second
    /// at the ratio of the two numbers, and the third back at half of its own speed.
    fn turning([driving, driven]: [i64; 2]) -> Turning {
        let mut motions = Motions::free(4);
        for terms in [[(0, driving), (1, -driven)], [(0, 1), (2, 2)]] {
            motions = motions.constrained(&terms.to_vec()).unwrap_or(motions);
        }
        motions.turning(0)
    }

    /// Short numbers, numbers up to and beyond 32 bits, numbers beyond 64, in the same memory, in
    /// every order of two; and where the input cannot turn.
    #[test]
    fn all_speeds_are_what_each_is() {
        let long = i64::from(u32::MAX);
        let pairs = [
            [30, -75],
            [long, long - 1],
            [long + 2, long],
            [1 << 62, (1 << 61) - 1],
        ];
        let mut all: Vec<_> = pairs.into_iter().map(turning).collect();
        let held: [Term; 1] = [(0, 1)];
        all.extend(all[0].constrained(&held.to_vec()));
        // Ten numbers that have nothing in common, in a row: their product is beyond 64 bits.
        let primes = [1009, 1013, 1019, 1021, 1031, 1033, 1039, 1049, 1051, 1061];
        let mut chain = Motions::free(primes.len() + 1);
        for (shaft, prime) in primes.into_iter().enumerate() {
            let terms = vec![(shaft, prime), (shaft + 1, -(prime + 1))];
            chain = chain.constrained(&terms).unwrap_or(chain);
        }
        all.push(chain.turning(0));
        // Of which all speeds are short.
        let short = [true, true, false, false, true, false];
        assert_eq!(all.len(), short.len());
        let all = || all.iter().zip(short);
        let mut speeds = Speeds::default();
        for (turning, short) in all().flat_map(|first| all().flat_map(move |then| [first, then])) {
            let determined = turning.speeds(&mut speeds);
            let read: Vec<_> = speeds.iter().collect();
            let alone: Vec<_> = (0..read.len()).map(|shaft| turning.speed(shaft)).collect();
            assert_eq!(read, alone);
            assert_eq!(determined, alone.iter().flatten().count());
            assert!(matches!((read.len(), determined), (4, 3) | (11, 11)));
            assert_eq!(speeds.any.is_empty(), short);
        }
    }
}

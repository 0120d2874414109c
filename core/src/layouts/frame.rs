//! Sets joined to shafts, before there are elements.

use super::class::{Class, FURTHER, HOUSING, INPUT, OUTPUT};

/// Which body each member of all sets is part of.
///
/// Bodies are numbered: the housing, the input, the output, then further shafts in the order in which
/// members are on them.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct Frame {
    pub bodies: Vec<u8>,
    /// How bodies change places where the frame stays the same.
    pub symmetries: Vec<Vec<u8>>,
}

/// A clutch between two bodies, or a brake, the lower number first.
pub(super) type Pair = [u8; 2];

/// A set of pairs, by their places in the list of all.
pub(super) type Pairs = u128;

/// All pairs of bodies that an element can be of any use between: all but the housing with input or output.
pub(super) fn all_pairs(shafts: u8) -> Vec<Pair> {
    let mut pairs = Vec::new();
    for low in HOUSING..=shafts {
        for high in low + 1..=shafts {
            if low != HOUSING || high >= FURTHER {
                pairs.push([low, high]);
            }
        }
    }
    pairs
}

/// The members of a set of pairs.
pub(super) fn each(pairs: Pairs) -> impl Iterator<Item = usize> {
    let mut left = pairs;
    std::iter::from_fn(move || {
        (left != 0).then(|| {
            let at = left.trailing_zeros() as usize;
            left &= left - 1;
            at
        })
    })
}

impl Frame {
    /// Whether each shaft is joined to enough that something can act on it: two at least, and one for input and output,
    /// on which something acts from outside.
    pub(super) fn is_joined(&self, class: &Class, elements: &[Pair]) -> bool {
        let on = |body: u8| {
            let members = self.bodies.iter().filter(|&&other| other == body);
            let ends = elements.iter().flatten().filter(|&&end| end == body);
            members.count() + ends.count()
        };
        (INPUT..=class.shafts).all(|body| on(body) >= if body <= OUTPUT { 1 } else { 2 })
    }

    /// Whether no symmetry makes a smaller set of these pairs, which would stand for them.
    pub(super) fn is_first(&self, all: &[Pair], pairs: Pairs) -> bool {
        self.symmetries.iter().all(|names| {
            let mapped = each(pairs).map(|at| {
                let [a, b] = all[at].map(|body| names[usize::from(body)]);
                [a.min(b), a.max(b)]
            });
            // Symmetries keep housing, input and output where they are, so that each pair is one of the list.
            let places = mapped.filter_map(|pair| all.iter().position(|other| *other == pair));
            places.fold(0, |set: Pairs, at| set | 1 << at) >= pairs
        })
    }
}

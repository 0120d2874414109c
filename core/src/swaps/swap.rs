//! What changes between two combinations.

use crate::base::element_set::ElementSet;

/// The elements that are released and those that are applied on the way from one combination to another.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Swap {
    /// Those that are released.
    pub released: ElementSet,
    /// Those that are applied.
    pub applied: ElementSet,
}

/// How much that is, least first.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Kind {
    /// Nothing: both apply the same.
    Same,
    /// One element alone is released or applied.
    Alone,
    /// One is released and one applied.
    Single,
    /// At most two are released and at most two applied, and more than in a single swap.
    Double,
    /// Three or more are released, or applied.
    More,
}

impl Swap {
    /// What leads from one set of applied elements to another.
    pub const fn between(from: ElementSet, to: ElementSet) -> Self {
        Self {
            released: from.minus(to),
            applied: to.minus(from),
        }
    }

    /// How much it is.
    pub const fn kind(self) -> Kind {
        match (self.released.len(), self.applied.len()) {
            (0, 0) => Kind::Same,
            (1, 0) | (0, 1) => Kind::Alone,
            (1, 1) => Kind::Single,
            (0..=2, 0..=2) => Kind::Double,
            _ => Kind::More,
        }
    }

    /// The way back.
    #[must_use]
    pub const fn back(self) -> Self {
        Self {
            released: self.applied,
            applied: self.released,
        }
    }
}

impl Kind {
    /// All, least first.
    pub const ALL: [Self; 5] = [
        Self::Same,
        Self::Alone,
        Self::Single,
        Self::Double,
        Self::More,
    ];

    /// As one word, for programs that read it.
    pub const fn key(self) -> &'static str {
        match self {
            Self::Same => "same",
            Self::Alone => "alone",
            Self::Single => "single",
            Self::Double => "double",
            Self::More => "more",
        }
    }

    /// Whether at most one element is released and at most one applied, but not none of both.
    pub const fn is_single(self) -> bool {
        matches!(self, Self::Alone | Self::Single)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn counts_both_sides() {
        let of =
            |from, to| Swap::between(ElementSet::from_bits(from), ElementSet::from_bits(to)).kind();
        let rows = [
            (0b0011, 0b0011, Kind::Same),
            (0b0001, 0b0011, Kind::Alone),
            (0b0011, 0b0010, Kind::Alone),
            (0b0011, 0b0110, Kind::Single),
            (0b0011, 0b1100, Kind::Double),
            (0b0011, 0b0100, Kind::Double),
            (0b0000, 0b0011, Kind::Double),
            (0b0111, 0b0000, Kind::More),
            (0b0111, 0b1000, Kind::More),
        ];
        for (from, to, kind) in rows {
            assert_eq!(of(from, to), kind, "{from:b} to {to:b}");
            assert_eq!(of(to, from), kind, "{to:b} to {from:b}");
        }
    }
}

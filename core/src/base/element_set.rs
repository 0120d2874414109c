//! A set of applied elements.

/// Which shift elements are applied, by their index in the scenario. At most 16, so a
/// combination is one small number and all of them can be counted through.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Default)]
pub struct ElementSet(u32);

impl ElementSet {
    /// Nothing applied.
    pub const NONE: Self = Self(0);

    /// The set whose members are the one bits of `bits`.
    pub const fn from_bits(bits: u32) -> Self {
        Self(bits)
    }

    /// One bit per applied element.
    pub const fn bits(self) -> u32 {
        self.0
    }

    /// Whether element `index` is applied.
    pub const fn contains(self, index: usize) -> bool {
        self.0 >> index & 1 == 1
    }

    /// With element `index` applied.
    #[must_use]
    pub const fn with(self, index: usize) -> Self {
        Self(self.0 | 1 << index)
    }

    /// With element `index` released.
    #[must_use]
    pub const fn without(self, index: usize) -> Self {
        Self(self.0 & !(1 << index))
    }

    /// With the members of `other`.
    #[must_use]
    pub const fn union(self, other: Self) -> Self {
        Self(self.0 | other.0)
    }

    /// Without the members of `other`.
    #[must_use]
    pub const fn minus(self, other: Self) -> Self {
        Self(self.0 & !other.0)
    }

    /// How many are applied.
    pub const fn len(self) -> usize {
        self.0.count_ones() as usize
    }

    /// Whether nothing is applied.
    pub const fn is_empty(self) -> bool {
        self.0 == 0
    }

    /// Indices of the applied elements, ascending.
    pub fn iter(self) -> impl Iterator<Item = usize> {
        (0..u32::BITS as usize).filter(move |&index| self.contains(index))
    }
}

impl FromIterator<usize> for ElementSet {
    fn from_iter<T: IntoIterator<Item = usize>>(indices: T) -> Self {
        indices.into_iter().fold(Self::NONE, Self::with)
    }
}

//! Chance that is the same every time.

/// A small fixed-seed generator (xorshift): layouts must not change from one visit to the next.
#[derive(Debug)]
pub struct Dice(u64);

impl Dice {
    /// The same one every time, with a seed for which our scenarios are soon laid out well.
    pub const fn new() -> Self {
        Self(0xC76D_0104_C41A_71BD)
    }

    /// A number below `bound`.
    pub fn below(&mut self, bound: usize) -> usize {
        self.0 ^= self.0 << 13;
        self.0 ^= self.0 >> 7;
        self.0 ^= self.0 << 17;
        (self.0 % bound as u64) as usize
    }

    /// Puts items in another order.
    pub fn shuffle<T>(&mut self, items: &mut [T]) {
        for index in (1..items.len()).rev() {
            items.swap(index, self.below(index + 1));
        }
    }
}

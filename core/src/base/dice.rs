//! Dice that give the same for the same seed, everywhere and for ever.

/// SplitMix64 (G. L. Steele, D. Lea, C. H. Flood, Fast splittable pseudorandom number generators, OOPSLA 2014;
/// constants from memory, checked by a known row of numbers below).
#[derive(Debug, Clone)]
pub(crate) struct Dice(u64);

impl Dice {
    pub(crate) const fn new(seed: u64) -> Self {
        Self(seed)
    }

    const fn roll(&mut self) -> u64 {
        self.0 = self.0.wrapping_add(0x9e37_79b9_7f4a_7c15);
        let mut mixed = self.0;
        mixed = (mixed ^ (mixed >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        mixed = (mixed ^ (mixed >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
        mixed ^ (mixed >> 31)
    }

    /// A number below `count`; 0 where that is 0.
    pub(crate) fn below(&mut self, count: usize) -> usize {
        // The bias is less than one in 2⁴⁰ for any list here.
        usize::try_from(self.roll() % (count.max(1) as u64)).unwrap_or(0)
    }

    /// Takes one of these out; nothing where there is none.
    pub(crate) fn take<T>(&mut self, items: &mut Vec<T>) -> Option<T> {
        let at = self.below(items.len());
        (at < items.len()).then(|| items.remove(at))
    }

    /// As many of these as there are up to `most`, in an order of its own.
    pub(crate) fn some<T>(&mut self, mut items: Vec<T>, most: usize) -> Vec<T> {
        let mut taken = Vec::new();
        while taken.len() < most {
            match self.take(&mut items) {
                Some(item) => taken.push(item),
                None => break,
            }
        }
        taken
    }
}

#[cfg(test)]
mod tests {
    use super::Dice;

    #[test]
    fn the_row_of_seed_1234567_is_the_published_one() {
        // The row that the generator's reference code gives, as test suites of many languages list it (from memory).
        let mut dice = Dice::new(1_234_567);
        let row = [
            6_457_827_717_110_365_317_u64,
            3_203_168_211_198_807_973,
            9_817_491_932_198_370_423,
        ];
        for expected in row {
            assert_eq!(dice.roll(), expected);
        }
    }

    #[test]
    fn all_are_taken_once() {
        let mut taken = Dice::new(7).some((0..20).collect(), 30);
        assert_ne!(taken, (0..20).collect::<Vec<_>>());
        taken.sort_unstable();
        assert_eq!(taken, (0..20).collect::<Vec<_>>());
    }
}

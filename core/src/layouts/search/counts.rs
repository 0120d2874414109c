//! What becomes of layouts.

/// What has become of layouts so far.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct LayoutCounts {
    /// Ways of joining the sets, each once.
    pub frames: u64,
    /// Those of them whose shafts would pass through each other.
    pub crossing: u64,
    /// Those of them that have more choices than are gone through ([`CHOICES`](crate::layouts::limits::CHOICES)).
    pub given_up: u64,
    /// Layouts that can give the ratios as far as tooth ratios tell.
    pub layouts: u64,
    /// Those of them whose shafts would pass through each other, or that have an element to spare.
    pub useless: u64,
    /// Those of them for which there are no teeth.
    pub toothless: u64,
    /// Those for which not all teeth were tried.
    pub unended: u64,
}

impl LayoutCounts {
    pub(in crate::layouts) const fn all_mut(&mut self) -> [&mut u64; 7] {
        [
            &mut self.frames,
            &mut self.crossing,
            &mut self.given_up,
            &mut self.layouts,
            &mut self.useless,
            &mut self.toothless,
            &mut self.unended,
        ]
    }
}

//! How large a class of layouts may be.

use std::ops::RangeInclusive;

/// How many sets a layout may have.
pub const SETS: RangeInclusive<usize> = 1..=4;
/// Most mesh rows of all its sets together.
pub const ROWS: usize = 6;
/// How many elements may be applied in each range.
pub const APPLIED: RangeInclusive<u32> = 1..=4;
/// Most clutches and brakes of a layout.
pub const ELEMENTS: u32 = 6;
/// Most forward ranges.
pub const FORWARD: usize = 12;
/// Most layouts that are kept, the best of them.
pub const FOUND: usize = 1_000;
/// How often drives are tried as ranges of one frame, which takes a second or two, before that is given up, which is then said.
pub const CHOICES: usize = 2_000_000;
/// Boxes after which the search for the teeth of one layout is given up, which is then said.
pub const BOXES: usize = 200_000;

//! How large a search may be. The limits keep each piece of it short and its memory small; how long
//! all of it takes is estimated beforehand ([`super::Search::estimate`]).

use std::ops::RangeInclusive;

use crate::model::scenario::limits::{PINIONS, TEETH_MIN};

/// Fewest teeth that can be asked for: as in a scenario.
pub const FEWEST: u32 = TEETH_MIN;
/// Most teeth that can be asked for.
pub const MOST: u32 = 300;
/// How many pinions can be asked for.
pub const PINION_COUNTS: RangeInclusive<u32> = 1..=PINIONS;
/// Most sets whose teeth are looked for at once. Candidates are then counted without overflow.
pub const SETS: usize = 6;
/// Most tooth counts that all sets together may have within the bounds, those that are alike counted once: they and their trees take
/// about a hundred bytes each.
pub const CUTS: usize = 850_000;
/// Most tooth counts of a set that are tried against the rules, so that what is too much is refused within a second or two.
pub const TRIES: usize = 4_000_000;
/// Most tooth ratios that one wanted ratio may depend on: bounds are taken at 2ⁿ corners.
pub const RATIOS: usize = 8;
/// Most finds that are kept: with many criteria nearly everything is a find, and nobody reads more.
pub const FINDS: usize = 5_000;

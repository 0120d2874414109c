//! The six-speed, worked out by hand.
//!
//! Speeds per input turn, from Willis's equation of each set (S·s + R·r = (S + R)·c):
//! set 1, 30 and 90 teeth: s1 + 3·out = 4·c1; set 2, 51 and 87 teeth: 17 + 29·c1 = 46·c2;
//! set 3, 35 teeth held and 95: 19·r3 = 26·c2.

use anyhow::{Context, Result, ensure};
use levertrain_core::Train;
use levertrain_core::coupling::Coupling;

use crate::by_core;

/// File stem of the six-speed.
pub const STEM: &str = "04-six-speed-three-sets";

/// A range worked out by hand.
#[derive(Debug, Clone, Copy)]
pub struct Range {
    pub id: &'static str,
    /// In the order of the alphabet, as the tests read them off the page.
    pub applied: [&'static str; 2],
    pub exact: &'static str,
    pub ratio: &'static str,
}

/// First gear: c1 = 0 and out = c2, so out = 17/46.
pub const FIRST: Range = Range {
    id: "1",
    applied: ["J", "W"],
    exact: "46/17",
    ratio: "2.706 : 1",
};

/// Second gear: c1 = 0 and out = r3 = 26/19 · 17/46 = 221/437.
pub const SECOND: Range = Range {
    id: "2",
    applied: ["K", "W"],
    exact: "437/221",
    ratio: "1.977 : 1",
};

/// Third gear: s1 = 0, so c1 = 3/4 · out, and out = c2, so 17 = 97/4 · out.
pub const THIRD: Range = Range {
    id: "3",
    applied: ["J", "V"],
    exact: "97/68",
    ratio: "1.426 : 1",
};

/// Sixth gear: s1 = 1 and c2 = 19/26 · out, so 97/4 = 617/52 · out.
pub const SIXTH: Range = Range {
    id: "6",
    applied: ["H", "K"],
    exact: "617/1261",
    ratio: "0.489 : 1",
};

/// Reverse: c1 = 0 and s1 = 1, so out = −1/3.
pub const REVERSE: Range = Range {
    id: "R",
    applied: ["H", "W"],
    exact: "−3",
    ratio: "−3.000 : 1",
};

/// The link to a range of the six-speed at 1000 rev/min.
pub fn link(range: Range) -> String {
    // The page writes elements in the order of the file.
    let mut applied = range.applied;
    applied.sort_by_key(|id| "VWHJK".find(id));
    format!("#s={STEM}&on={}&n=1000", applied.join(","))
}

/// The six-speed, when its tooth counts are still those of the calculation.
pub fn train() -> Result<Train> {
    let train = by_core::train(STEM)?;
    let teeth: Option<Vec<[i64; 2]>> = train
        .scenario()
        .couplings
        .iter()
        .map(|coupling| match coupling {
            Coupling::Planetary(set) => {
                let gears = [&set.sun, &set.ring];
                Some(gears.map(|gear| gear.teeth.coefficient()))
            }
            _ => None,
        })
        .collect();
    let teeth = teeth.context("the six-speed has three single sets")?;
    ensure!(
        teeth == [[30, 90], [51, 87], [35, 95]],
        "the tooth counts are now {teeth:?}: work the ranges out again"
    );
    Ok(train)
}

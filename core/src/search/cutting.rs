//! The tooth counts that a set may have: all within bounds that keep the rules.
//!
//! Gears that decide a tooth ratio are tried in every count. The count of the outermost gear follows from
//! the others by the pins, which stand on one circle: the coaxial rule; without that rule the nearest counts are tried:
//! profile shift takes up half a module of centre distance at a mesh (common practice, no source), so that a pinion which
//! meshes with sun and ring may be the one below or above, and the outermost gear of stepped pinions, which have a mesh of
//! its own for each step, two teeth off either way.
//! Pinions that decide no ratio are given the counts with which they spin slowest about their pins, which
//! is the best of them in every criterion: neither ratios, nor size, nor losses depend on them.
//!
//! That goes in pieces: with the most counts that there may be it takes a second or two, and whoever is told to rest should.

use std::ops::RangeInclusive;

use super::ask::{Ask, Rules};
use super::cuts::{Cut, cut_of};
use super::limits;
use super::merging::Merging;
use crate::model::coupling::{Coupling, PinionCount, Teeth};
use crate::model::tooth_checks::Rule;

/// How many teeth the outermost gear of stepped pinions may be off by where there is profile shift.
const STEPPED_SLACK: u32 = 2;

/// What a large sun counts where it and a ring are one number: more than a ring has teeth.
const SUN: u32 = 1024;

/// How many counts are tried in a piece, some more where they have the first two in common.
const PIECE: usize = 8192;

/// Why there are none.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum NoCuts {
    /// No counts keep the rules.
    None,
    /// There are more than are left of [`limits::CUTS`], or more than [`limits::TRIES`] would have to be tried.
    TooMany,
}

/// Lists all of them for a coupling.
pub(super) struct Cutting {
    cutter: Cutter,
    /// Of counts with the same ratios only those are kept that none of the others is as good as.
    merging: Option<Merging>,
    /// Whether all were tried.
    tried: bool,
}

impl Cutting {
    /// `alike` says whether counts with the same ratios are merged: it must be false where the ring's teeth matter to another set.
    pub(super) fn new(coupling: &Coupling, ask: &Ask, alike: bool) -> Self {
        let cutter = Cutter {
            coupling: coupling.clone(),
            rules: ask.rules.iter().map(|rule| rule.rule()).collect(),
            slack: if ask.rules.contains(&Rules::Coaxial) {
                0
            } else {
                STEPPED_SLACK
            },
            gears: ask.teeth,
            pinions: ask.pinion_teeth,
            counts: ask.pinions.clone(),
            first: ask.teeth[0],
            seconds: None,
            found: Vec::new(),
            kept: 0,
            most: 0,
            tries: 0,
        };
        Self {
            cutter,
            merging: alike.then(Merging::default),
            tried: false,
        }
    }

    /// Goes on for a piece; all that were found, once nothing is left. There may be `most`.
    ///
    /// # Errors
    /// Why there are none.
    pub(super) fn run(&mut self, most: usize) -> Result<Option<Vec<Cut>>, NoCuts> {
        self.cutter.most = most;
        if self.tried {
            return Ok(self.merging.as_mut().and_then(Merging::run));
        }
        let until = self.cutter.tries + PIECE;
        while self.cutter.tries < until && !self.tried {
            self.tried = !self.cutter.step()?;
        }
        if self.tried && self.cutter.kept == 0 {
            return Err(NoCuts::None);
        }
        match &mut self.merging {
            None => Ok(self.tried.then(|| std::mem::take(&mut self.cutter.found))),
            Some(merging) => {
                merging.take(&mut self.cutter.found);
                Ok(None)
            }
        }
    }
}

struct Cutter {
    /// With the counts that are being tried.
    coupling: Coupling,
    rules: Vec<Rule>,
    slack: u32,
    gears: [u32; 2],
    pinions: [u32; 2],
    counts: Vec<u32>,
    /// The first count that is being tried, and the second ones that are left with it, once it was begun with.
    first: u32,
    seconds: Option<RangeInclusive<u32>>,
    found: Vec<Cut>,
    /// How many were found in all, and how many may be.
    kept: usize,
    most: usize,
    /// How many counts were tried.
    tries: usize,
}

impl Cutter {
    /// Tries the next two first counts with all others; false once there are none left.
    fn step(&mut self) -> Result<bool, NoCuts> {
        if self.first > self.gears[1] {
            return Ok(false);
        }
        let mut seconds = match self.seconds.take() {
            Some(seconds) => seconds,
            None => self.seconds(),
        };
        match seconds.next() {
            Some(second) => {
                self.seconds = Some(seconds);
                self.with(self.first, second)?;
            }
            None => self.first += 1,
        }
        Ok(true)
    }

    /// What is tried second, with what comes first.
    fn seconds(&self) -> RangeInclusive<u32> {
        let [least, most] = self.gears;
        let [small, large] = self.pinions;
        match self.coupling {
            Coupling::Planetary(_) => self.first + 2 * small..=most,
            Coupling::DoublePinion(_) => self.first + 1..=most,
            Coupling::Stepped(_) | Coupling::SteppedSuns(_) => small..=large.min(most),
            // A large sun and a ring in one: there are most counts of these sets.
            Coupling::Ravigneaux(_) => least * SUN..=most * SUN + most,
            Coupling::GearPair(_) => least..=most,
        }
    }

    /// Tries all counts with these two.
    fn with(&mut self, first: u32, second: u32) -> Result<(), NoCuts> {
        let most = self.gears[1];
        let [small, large] = self.pinions;
        match self.coupling {
            Coupling::Planetary(_) => {
                let (sun, ring) = (first, second);
                // The nearest below and above where none is in the middle; a larger pinion spins more slowly.
                let row = nearest(ring - sun).map(|pinion| [sun, pinion, ring]);
                self.first(row)
            }
            Coupling::DoublePinion(_) => {
                let (sun, ring) = (first, second);
                // A pinion that reaches from the sun to the ring would mesh with both.
                let room = large.min((ring - sun).div_ceil(2).saturating_sub(1));
                let pairs = slowest_pairs(small, room);
                self.first(pairs.map(|[inner, outer]| [sun, inner, outer, ring]))
            }
            Coupling::Stepped(_) => {
                let (sun, on_sun) = (first, second);
                for on_ring in small..=large.min(most) {
                    let ring = sun + on_sun + on_ring;
                    self.off(ring, |ring| [sun, on_sun, on_ring, ring])?;
                }
                Ok(())
            }
            Coupling::SteppedSuns(_) => {
                let (first, p) = (first, second);
                for q in small..=large.min(first + p) {
                    let second = first + p - q;
                    self.off(second, |second| [first, p, q, second])?;
                }
                Ok(())
            }
            Coupling::Ravigneaux(_) => {
                let (small_sun, large_sun, ring) = (first, second / SUN, second % SUN);
                if ring < large_sun + 2 * small || ring > most {
                    return Ok(());
                }
                let room = large.min(ring.saturating_sub(small_sun).div_ceil(2).saturating_sub(1));
                let shorts = (small..=room).rev();
                self.first(shorts.flat_map(|short| {
                    nearest(ring - large_sun)
                        .map(move |long| [small_sun, short, large_sun, long, ring])
                }))
            }
            Coupling::GearPair(_) => self.first(std::iter::once([first, second])),
        }
    }

    /// Counts of which the last may be off by the slack.
    fn off<const N: usize>(
        &mut self,
        last: u32,
        row: impl Fn(u32) -> [u32; N],
    ) -> Result<(), NoCuts> {
        let [least, most] = self.gears;
        let (from, to) = (last.saturating_sub(self.slack), last + self.slack);
        for count in from.max(least)..=to.min(most) {
            self.first(std::iter::once(row(count)))?;
        }
        Ok(())
    }

    /// Takes the first of these counts that keeps the rules, with the first number of pinions.
    fn first<const N: usize>(
        &mut self,
        rows: impl Iterator<Item = [u32; N]>,
    ) -> Result<(), NoCuts> {
        for row in rows {
            self.tries += 1;
            if self.tries > limits::TRIES {
                return Err(NoCuts::TooMany);
            }
            if !self.cut(&row) {
                continue;
            }
            if !self.is_planetary() {
                if self.holds() {
                    return self.keep();
                }
                continue;
            }
            for at in 0..self.counts.len() {
                self.count(self.counts[at]);
                if self.holds() {
                    return self.keep();
                }
            }
        }
        Ok(())
    }

    fn is_planetary(&mut self) -> bool {
        self.coupling.parts().count.is_some()
    }

    /// Gives it these counts; false where a pinion may not have so many.
    fn cut(&mut self, counts: &[u32]) -> bool {
        let [small, large] = self.pinions;
        let parts = self.coupling.parts();
        for ((name, teeth), &count) in parts.teeth.into_iter().zip(counts) {
            let is_pinion = matches!(name, crate::model::coupling::GearName::Pinion(_));
            let Some(count) = Teeth::new(count) else {
                return false;
            };
            if is_pinion && !(small..=large).contains(&count.get()) {
                return false;
            }
            *teeth = count;
        }
        true
    }

    fn count(&mut self, count: u32) {
        if let Some(pinions) = self.coupling.parts().count
            && let Ok(count) = PinionCount::try_from(i64::from(count))
        {
            *pinions = count;
        }
    }

    fn holds(&self) -> bool {
        let warnings = self.coupling.facts().tooth_warnings();
        warnings
            .iter()
            .all(|warning| !self.rules.contains(&warning.rule()))
    }

    fn keep(&mut self) -> Result<(), NoCuts> {
        if self.kept >= self.most {
            return Err(NoCuts::TooMany);
        }
        self.kept += 1;
        self.found.push(cut_of(&mut self.coupling));
        Ok(())
    }
}

/// Half of a number: the whole one above and that below, or the one that is both.
fn nearest(number: u32) -> impl Iterator<Item = u32> {
    let (above, below) = (number.div_ceil(2), number / 2);
    [above, below]
        .into_iter()
        .take(if below == above { 1 } else { 2 })
}

/// Counts of two pinions from the fewest up to the most: those first whose smaller one is largest, then
/// those whose larger one is.
fn slowest_pairs(least: u32, most: u32) -> impl Iterator<Item = [u32; 2]> {
    (least..=most).rev().flat_map(move |smaller| {
        (smaller..=most).rev().flat_map(move |larger| {
            let both = [[larger, smaller], [smaller, larger]];
            both.into_iter().take(if smaller == larger { 1 } else { 2 })
        })
    })
}

//! The tooth counts that a set may have: all within bounds that keep the rules.
//!
//! Gears that decide a tooth ratio are tried in every count. The count of the outermost gear follows from
//! the others by the pins, which stand on one circle: the coaxial rule; without that rule the nearest counts are tried:
//! profile shift takes up half a module of centre distance at a mesh (common practice, no source), so that a pinion which
//! meshes with sun and ring may be the one below or above, and the outermost gear of stepped pinions, which have a mesh of
//! its own for each step, two teeth off either way.
//! Pinions that decide no ratio are given the counts with which they spin slowest about their pins, which
//! is the best of them in every criterion: neither ratios, nor size, nor losses depend on them.

use super::ask::{Ask, Rules};
use super::limits;
use crate::model::coupling::{Coupling, Mesh, PinionCount, Symbol, Teeth};
use crate::model::tooth_checks::Rule;

/// Most gears and steps of a set.
pub(super) const GEARS: usize = 5;

/// How many teeth the outermost gear of stepped pinions may be off by where there is profile shift.
const STEPPED_SLACK: u32 = 2;

/// Tooth counts of a set, and what the search reads of them.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Cut {
    /// Counts in the order of [`crate::coupling::Parts`], the rest 0.
    pub teeth: [u16; GEARS],
    /// How many pinions stand around the axis; 0 for a pair of gears.
    pub pinions: u8,
    /// How far out it reaches: teeth of the ring, or what a ring there would have.
    pub reach: u16,
    /// Twice the distance of the axes of a pair, in modules; 0 of sets round one axis.
    pub distance: u16,
    /// Tooth ratio of each mesh row; the second is that of the first where there is one row only.
    pub k: [f64; 2],
    /// How many tooth counts it stands for: those with the same ratios that are not better in anything.
    pub stands_for: u32,
}

/// Why there are none.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum NoCuts {
    /// No counts keep the rules.
    None,
    /// There are more than [`limits::CUTS`], or more than [`limits::TRIES`] would have to be tried.
    TooMany,
}

/// All of them for a coupling. Where `alike` says so, of counts with the same ratios only those are kept that
/// none of the others is as good as: it must be false where the ring's teeth matter to another set.
pub(super) fn cuts(coupling: &Coupling, ask: &Ask, alike: bool) -> Result<Vec<Cut>, NoCuts> {
    let mut cutter = Cutter {
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
        found: Vec::new(),
        tries: 0,
    };
    cutter.all()?;
    let mut found = cutter.found;
    if found.is_empty() {
        return Err(NoCuts::None);
    }
    if alike {
        found = merged(found);
    }
    Ok(found)
}

/// What the search reads of a coupling like this one with these counts.
pub(super) fn of_counts(coupling: &Coupling, teeth: &[Teeth], pinions: Option<PinionCount>) -> Cut {
    let mut cut = coupling.clone();
    let parts = cut.parts();
    for ((_, place), count) in parts.teeth.into_iter().zip(teeth) {
        *place = *count;
    }
    if let (Some(place), Some(count)) = (parts.count, pinions) {
        *place = count;
    }
    cut_of(&mut cut)
}

/// Gives a coupling these counts.
pub(super) fn apply(coupling: &mut Coupling, cut: &Cut) {
    let parts = coupling.parts();
    for ((_, teeth), count) in parts.teeth.into_iter().zip(cut.teeth) {
        if let Some(count) = Teeth::new(count.into()) {
            *teeth = count;
        }
    }
    if let Some(count) = parts.count
        && let Ok(pinions) = PinionCount::try_from(i64::from(cut.pinions))
    {
        *count = pinions;
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
    found: Vec<Cut>,
    /// How many counts were tried.
    tries: usize,
}

impl Cutter {
    fn all(&mut self) -> Result<(), NoCuts> {
        let [least, most] = self.gears;
        let [small, large] = self.pinions;
        match self.coupling {
            Coupling::Planetary(_) => {
                for sun in least..=most {
                    for ring in sun + 2 * small..=most {
                        // The nearest below and above where none is in the middle.
                        let (below, above) = ((ring - sun) / 2, (ring - sun).div_ceil(2));
                        // A larger pinion spins more slowly.
                        let row = [above, below].map(|pinion| [sun, pinion, ring]);
                        self.first(row.into_iter().take(if below == above { 1 } else { 2 }))?;
                    }
                }
            }
            Coupling::DoublePinion(_) => {
                for sun in least..=most {
                    for ring in sun + 1..=most {
                        // A pinion that reaches from the sun to the ring would mesh with both.
                        let room = large.min((ring - sun).div_ceil(2).saturating_sub(1));
                        let pairs = slowest_pairs(small, room);
                        let row = pairs.map(|[inner, outer]| [sun, inner, outer, ring]);
                        self.first(row)?;
                    }
                }
            }
            Coupling::Stepped(_) => {
                for sun in least..=most {
                    for on_sun in small..=large.min(most) {
                        for on_ring in small..=large.min(most) {
                            let ring = sun + on_sun + on_ring;
                            self.off(ring, |ring| [sun, on_sun, on_ring, ring])?;
                        }
                    }
                }
            }
            Coupling::SteppedSuns(_) => {
                for first in least..=most {
                    for p in small..=large.min(most) {
                        for q in small..=large.min(first + p) {
                            let second = first + p - q;
                            self.off(second, |second| [first, p, q, second])?;
                        }
                    }
                }
            }
            Coupling::Ravigneaux(_) => {
                for small_sun in least..=most {
                    for large_sun in least..=most {
                        for ring in large_sun + 2 * small..=most {
                            let room = large
                                .min(ring.saturating_sub(small_sun).div_ceil(2).saturating_sub(1));
                            let (below, above) =
                                ((ring - large_sun) / 2, (ring - large_sun).div_ceil(2));
                            let long = [above, below];
                            let long = long.into_iter().take(if below == above { 1 } else { 2 });
                            let shorts = (small..=room).rev();
                            let row = shorts.flat_map(|short| {
                                let long = long.clone();
                                long.map(move |long| [small_sun, short, large_sun, long, ring])
                            });
                            self.first(row)?;
                        }
                    }
                }
            }
            Coupling::GearPair(_) => {
                for first in least..=most {
                    for second in least..=most {
                        self.first([[first, second]].into_iter())?;
                    }
                }
            }
        }
        Ok(())
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
        if self.found.len() == limits::CUTS {
            return Err(NoCuts::TooMany);
        }
        self.found.push(cut_of(&mut self.coupling));
        Ok(())
    }
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

/// What the search reads of a coupling with the counts that it has.
pub(super) fn cut_of(coupling: &mut Coupling) -> Cut {
    let product = |symbols: &[Symbol]| -> f64 {
        // Products of two counts: whole numbers that a double holds.
        symbols
            .iter()
            .map(|(_, teeth)| f64::from(teeth.get()))
            .product()
    };
    let rows = coupling.facts().row_ratios();
    let k = |at: usize| {
        let row = &rows[at.min(rows.len() - 1)];
        product(&row.numerator) / product(&row.denominator)
    };
    let k = [k(0), k(1)];
    let parts = coupling.parts();
    let mut teeth = [0; GEARS];
    for (place, (_, count)) in teeth.iter_mut().zip(&parts.teeth) {
        // A count is at most 999.
        *place = count.get() as u16;
    }
    let pinions = parts.count.map_or(0, |count| count.get() as u8);
    Cut {
        reach: reach(coupling, teeth),
        distance: distance(coupling, teeth),
        teeth,
        pinions,
        k,
        stands_for: 1,
    }
}

/// Teeth of the ring; of two suns the circle around the larger pinions, of a pair its larger gear.
fn reach(coupling: &Coupling, teeth: [u16; GEARS]) -> u16 {
    match coupling {
        Coupling::Planetary(_) => teeth[2],
        Coupling::DoublePinion(_) | Coupling::Stepped(_) => teeth[3],
        Coupling::SteppedSuns(_) => (teeth[0] + 2 * teeth[1]).max(teeth[3] + 2 * teeth[2]),
        Coupling::Ravigneaux(_) => teeth[4],
        Coupling::GearPair(_) => teeth[0].max(teeth[1]),
    }
}

/// Twice the distance of the axes, in modules: the sum of the teeth, or their difference in an internal mesh.
fn distance(coupling: &Coupling, [first, second, ..]: [u16; GEARS]) -> u16 {
    match coupling {
        Coupling::GearPair(pair) => match pair.mesh {
            Mesh::External => first + second,
            Mesh::Internal => second.abs_diff(first),
        },
        _ => 0,
    }
}

/// Of counts with the same ratios those that reach least far; of those that also reach as far, the first
/// of those whose smallest pinions are largest. Each stands for those that it is as good as.
fn merged(mut cuts: Vec<Cut>) -> Vec<Cut> {
    let order = |a: &Cut, b: &Cut| {
        let ratios = a.k[0].total_cmp(&b.k[0]).then(a.k[1].total_cmp(&b.k[1]));
        ratios
            .then(a.reach.cmp(&b.reach))
            .then(a.teeth.cmp(&b.teeth))
    };
    cuts.sort_unstable_by(order);
    let mut kept: Vec<Cut> = Vec::with_capacity(cuts.len());
    for cut in cuts {
        match kept.last_mut() {
            Some(last) if last.k == cut.k && as_good(last, &cut) => {
                last.stands_for += 1;
            }
            _ => kept.push(cut),
        }
    }
    kept
}

/// Whether `one` is at least as good as `other`, which has the same ratios: it reaches no farther, and no
/// pinion of it spins faster. Of a set with one row of pinions that follows from the ratio; of others it is
/// only said where gears are in proportion.
fn as_good(one: &Cut, other: &Cut) -> bool {
    let proportional = (1..GEARS).all(|at| {
        let cross = |a: &Cut, b: &Cut| u32::from(a.teeth[0]) * u32::from(b.teeth[at]);
        cross(one, other) == cross(other, one)
    });
    one.reach <= other.reach && proportional
}

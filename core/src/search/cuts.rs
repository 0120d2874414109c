//! Tooth counts of a set, and what the search reads of them.

use crate::model::coupling::{Coupling, Mesh, PinionCount, SetTeeth, Symbol, Teeth};

/// Most gears and steps of a set.
pub(super) const GEARS: usize = 5;

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

impl Cut {
    /// Gives a set these counts, of which it has as many.
    pub(super) fn put_into(&self, set: &mut SetTeeth) {
        for (teeth, count) in set.teeth.iter_mut().zip(self.teeth) {
            *teeth = Teeth::new(count.into()).unwrap_or(*teeth);
        }
        if let Some(pinions) = &mut set.pinions {
            *pinions = PinionCount::try_from(i64::from(self.pinions)).unwrap_or(*pinions);
        }
    }
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

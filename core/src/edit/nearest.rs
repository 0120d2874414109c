//! The nearest tooth counts that keep all rules.

use crate::model::coupling::{Coupling, Teeth};

/// How far tooth counts are looked for, as the sum of what each gear changes by.
const FARTHEST: u32 = 12;
/// How many are tried at most, so that it is done before anybody waits.
const MOST: usize = 40_000;

/// The tooth counts of a coupling that keep all rules with the least change in all, in the order of
/// [`crate::coupling::Parts`]; of some that change as much the first found, which leaves the gears
/// in the middle as they are rather than those outside. Nothing where none is near.
///
/// The pinions stay as many as they are.
pub fn nearest_teeth(coupling: &Coupling) -> Option<Vec<Teeth>> {
    nearest(coupling, None, MOST)
}

/// The same with one gear left as it is, tried at most so many times.
pub(super) fn nearest(
    coupling: &Coupling,
    fixed: Option<usize>,
    most: usize,
) -> Option<Vec<Teeth>> {
    let mut search = Search {
        usual: counts(&mut coupling.clone()),
        coupling: coupling.clone(),
        fixed,
        left: most,
    };
    let gears = search.usual.len();
    let mut changes = vec![0; gears];
    (0..=FARTHEST)
        .any(|far| search.finds(&mut changes, 0, far))
        .then(|| counts(&mut search.coupling))
}

pub(super) fn counts(coupling: &mut Coupling) -> Vec<Teeth> {
    let gears = coupling.parts().teeth.into_iter();
    gears.map(|(_, teeth)| *teeth).collect()
}

struct Search {
    usual: Vec<Teeth>,
    /// With the counts that are being tried.
    coupling: Coupling,
    /// The gear that is left as it is.
    fixed: Option<usize>,
    left: usize,
}

impl Search {
    /// Whether changes of the gears from `at` on, by `far` in all, make all rules hold.
    fn finds(&mut self, changes: &mut [i64], at: usize, far: u32) -> bool {
        if self.left == 0 {
            return false;
        }
        let is_last = at + 1 == changes.len();
        if self.fixed == Some(at) {
            changes[at] = 0;
            return match is_last {
                true => far == 0 && self.holds(changes),
                false => self.finds(changes, at + 1, far),
            };
        }
        if !is_last {
            return (0..=far).any(|own| {
                signs(own).any(|change| {
                    changes[at] = change;
                    self.finds(changes, at + 1, far - own)
                })
            });
        }
        signs(far).any(|change| {
            changes[at] = change;
            self.holds(changes)
        })
    }

    fn holds(&mut self, changes: &[i64]) -> bool {
        self.left = self.left.saturating_sub(1);
        let gears = self.coupling.parts().teeth.into_iter();
        for (((_, teeth), usual), change) in gears.zip(&self.usual).zip(changes) {
            match Teeth::try_from(usual.coefficient() + change) {
                Ok(count) => *teeth = count,
                Err(_) => return false,
            }
        }
        self.coupling.facts().tooth_warnings().is_empty()
    }
}

/// A change of this size, up and down.
fn signs(size: u32) -> impl Iterator<Item = i64> {
    let size = i64::from(size);
    [size, -size]
        .into_iter()
        .take(if size == 0 { 1 } else { 2 })
}

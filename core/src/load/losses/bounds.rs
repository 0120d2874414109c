//! Which ways power can go at all, whatever is lost: most have only one.
//!
//! The multipliers of all directions lie within those of one elimination in which each efficiency is
//! the whole interval between its two values (interval arithmetic; R. E. Moore, *Interval Analysis*,
//! 1966, from memory). Where the power of a way keeps its sign there, only one direction can agree
//! with it, and the other need not be tried.

use std::ops::{Mul, Sub};

use super::NO_POWER;
use super::equilibrium::Equilibrium;

/// Ways whose power may go forwards, and such as may go backwards: a bit each.
#[derive(Debug, Clone, Copy)]
pub(super) struct Possible {
    pub(super) forwards: u64,
    pub(super) backwards: u64,
}

impl Possible {
    /// Every direction of whatever moves.
    pub(super) fn all(equilibrium: &Equilibrium<'_>) -> Self {
        let ways = equilibrium.loaded.ways.len() as u32;
        Self {
            forwards: u64::MAX.checked_shr(u64::BITS - ways).unwrap_or(0),
            backwards: equilibrium.loaded.moving,
        }
    }
}

/// All numbers no further from the middle than the radius.
///
/// Sums, products and inverses hold all that they must, and products of two wide ones somewhat
/// more; they take no comparison.
#[derive(Debug, Clone, Copy)]
struct Span {
    middle: f64,
    radius: f64,
}

impl Span {
    const ZERO: Self = Self::only(0.0);

    const fn only(value: f64) -> Self {
        Self {
            middle: value,
            radius: 0.0,
        }
    }

    fn between(a: f64, b: f64) -> Self {
        Self {
            middle: (a + b) / 2.0,
            radius: ((a - b) / 2.0).abs(),
        }
    }

    fn low(self) -> f64 {
        self.middle - self.radius
    }

    fn high(self) -> f64 {
        self.middle + self.radius
    }

    /// The least size of any of these, less than 0 where both signs are among them.
    fn least(self) -> f64 {
        self.middle.abs() - self.radius
    }

    fn is_zero(self) -> bool {
        self.middle == 0.0 && self.radius == 0.0
    }

    fn plus(self, other: Self) -> Self {
        Self {
            middle: self.middle + other.middle,
            radius: self.radius + other.radius,
        }
    }

    /// One over each of these, none of which is 0.
    fn inverse(self) -> Self {
        let scale = 1.0 / (self.low() * self.high());
        Self {
            middle: self.middle * scale,
            radius: self.radius * scale,
        }
    }
}

impl Sub for Span {
    type Output = Self;

    fn sub(self, other: Self) -> Self {
        Self {
            middle: self.middle - other.middle,
            radius: self.radius + other.radius,
        }
    }
}

impl Mul for Span {
    type Output = Self;

    fn mul(self, other: Self) -> Self {
        Self {
            middle: self.middle * other.middle,
            radius: self.middle.abs() * other.radius
                + self.radius * (other.middle.abs() + other.radius),
        }
    }
}

/// What the bounds of one equilibrium after the other are reckoned in.
#[derive(Default)]
pub(super) struct Bounds {
    /// The equations, column after column, the right side last, where the multipliers come out.
    columns: Vec<Span>,
    /// Power into each way.
    rolling: Vec<Span>,
}

impl Bounds {
    /// What is possible in an equilibrium; everything, where the bounds are too wide to tell.
    pub(super) fn possible(&mut self, equilibrium: &Equilibrium<'_>) -> Possible {
        let mut possible = Possible::all(equilibrium);
        let moving = equilibrium.loaded.moving;
        if moving == 0 || self.find_multipliers(equilibrium).is_none() {
            return possible;
        }
        let size = equilibrium.size();
        let multipliers = &self.columns[size * size..];
        let ways = &equilibrium.loaded.ways;
        self.rolling.clear();
        self.rolling.resize(ways.len(), Span::ZERO);
        for (row, &multiplier) in equilibrium.loaded.rows.iter().zip(multipliers) {
            let (own, shared) = row.ways;
            let rolling = multiplier * Span::only(row.factors.0 * row.speed);
            self.rolling[own] = rolling;
            if let Some(shared) = shared {
                let [forwards, backwards] = ways[own].efficiencies;
                let passed = rolling * Span::between(forwards, backwards);
                self.rolling[shared] = self.rolling[shared].plus(passed);
            }
        }
        for (way, rolling) in self.rolling.iter().enumerate() {
            let (low, high) = (rolling.low(), rolling.high());
            // Of power that counts as none, either direction will do.
            if low >= -NO_POWER && (low > NO_POWER || high <= NO_POWER) {
                possible.backwards &= !(1 << way);
            } else if high < -NO_POWER && moving >> way & 1 == 1 {
                possible.forwards &= !(1 << way);
            }
        }
        possible
    }

    /// Bounds of the multipliers; nothing where a pivot may be 0.
    fn find_multipliers(&mut self, equilibrium: &Equilibrium<'_>) -> Option<()> {
        let size = equilibrium.size();
        let columns = &mut self.columns;
        columns.clear();
        for (column, row) in equilibrium.loaded.rows.iter().enumerate() {
            let efficiency = equilibrium.efficiencies(row);
            let entries = column * size..(column + 1) * size;
            let fixed = &equilibrium.fixed[entries.clone()];
            let lossy = &equilibrium.lossy[entries];
            let span = |(fixed, lossy): (&f64, &f64)| {
                Span::between(fixed + lossy * efficiency[0], fixed + lossy * efficiency[1])
            };
            columns.extend(fixed.iter().zip(lossy).map(span));
        }
        let right = &equilibrium.fixed[size * size..];
        columns.extend(right.iter().map(|&right| Span::only(right)));
        for step in 0..size {
            let pivots = &columns[step * size..][..size];
            let below = (step..size).max_by(|&a, &b| {
                let [a, b] = [a, b].map(|row| pivots[row].least());
                a.total_cmp(&b)
            });
            let largest = below.filter(|&row| pivots[row].least() > 0.0)?;
            for column in step..=size {
                columns.swap(column * size + step, column * size + largest);
            }
            let scale = columns[step * size + step].inverse();
            for row in step + 1..size {
                let factor = columns[step * size + row];
                if factor.is_zero() {
                    continue;
                }
                let factor = factor * scale;
                for column in step + 1..=size {
                    let change = factor * columns[column * size + step];
                    let entry = &mut columns[column * size + row];
                    *entry = *entry - change;
                }
            }
        }
        for unknown in (0..size).rev() {
            let pivot = columns[unknown * size + unknown];
            let multiplier = columns[size * size + unknown] * pivot.inverse();
            for row in 0..unknown {
                let change = multiplier * columns[unknown * size + row];
                let entry = &mut columns[size * size + row];
                *entry = *entry - change;
            }
            columns[size * size + unknown] = multiplier;
        }
        Some(())
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::base::element_set::ElementSet;
    use crate::load::losses::solver::Solver;
    use crate::load::losses::{LossModel, Lossy};
    use crate::train::Train;

    /// Every direction that is left out must be one that would not have held: whatever the losses
    /// and whoever drives, the outcome is that of trying them all.
    #[test]
    fn what_is_left_out_does_not_hold() {
        let folder = std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("../scenarios");
        let (mut tried, mut left_out) = (0, 0);
        for file in std::fs::read_dir(folder).into_iter().flatten().flatten() {
            let text = std::fs::read_to_string(file.path()).unwrap_or_default();
            let Ok(train) = Train::parse(&text) else {
                continue;
            };
            for bits in 0..1_u32 << train.scenario().elements.len() {
                let combination = train.solve(ElementSet::from_bits(bits));
                if combination.state().ratio().is_none() {
                    continue;
                }
                for (mesh_efficiency, drag, coasting) in [
                    (0.99, 0.0, false),
                    (0.9, 0.02, false),
                    (0.6, 0.0, true),
                    (0.98, 0.01, true),
                ] {
                    let model = LossModel {
                        mesh_efficiency,
                        drag,
                        coasting,
                    };
                    let mut solver = Solver::new(&train, &model);
                    if solver.equilibrium.read(&combination).is_none() {
                        continue;
                    }
                    let all = Possible::all(&solver.equilibrium);
                    let possible = Bounds::default().possible(&solver.equilibrium);
                    let [few, many] = [possible, all].map(|ways| match solver.among(ways) {
                        Lossy::Drives(torques) => vec![torques.efficiency],
                        Lossy::Ambiguous(efficiencies) => efficiencies,
                        _ => Vec::new(),
                    });
                    let name = &train.scenario().name;
                    assert!(
                        few.len() == many.len(),
                        "{name} {bits:b} {model:?}: {few:?} {many:?}"
                    );
                    let near = few.iter().zip(&many).all(|(a, b)| (a - b).abs() < NO_POWER);
                    assert!(near, "{name} {bits:b} {model:?}: {few:?} {many:?}");
                    tried += 1;
                    let open = |ways: Possible| (ways.forwards & ways.backwards).count_ones();
                    left_out += open(all) - open(possible);
                }
            }
        }
        assert!(tried > 300 && left_out > tried, "{left_out} of {tried}");
    }
}

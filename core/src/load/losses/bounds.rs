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

/// All numbers from `low` to `high`.
#[derive(Debug, Clone, Copy)]
struct Span {
    low: f64,
    high: f64,
}

impl Span {
    const ZERO: Self = Self::only(0.0);

    const fn only(value: f64) -> Self {
        Self {
            low: value,
            high: value,
        }
    }

    fn between(a: f64, b: f64) -> Self {
        Self {
            low: a.min(b),
            high: a.max(b),
        }
    }

    /// The least size of any of these.
    fn least(self) -> f64 {
        self.low.max(-self.high).max(0.0)
    }

    fn plus(self, other: Self) -> Self {
        Self {
            low: self.low + other.low,
            high: self.high + other.high,
        }
    }

    /// One over each of these, none of which is 0.
    fn inverse(self) -> Self {
        Self {
            low: 1.0 / self.high,
            high: 1.0 / self.low,
        }
    }
}

impl Sub for Span {
    type Output = Self;

    fn sub(self, other: Self) -> Self {
        Self {
            low: self.low - other.high,
            high: self.high - other.low,
        }
    }
}

impl Mul for Span {
    type Output = Self;

    fn mul(self, other: Self) -> Self {
        let (a, b) = (self.low * other.low, self.low * other.high);
        let (c, d) = (self.high * other.low, self.high * other.high);
        Self {
            low: a.min(b).min(c.min(d)),
            high: a.max(b).max(c.max(d)),
        }
    }
}

impl Possible {
    /// Every direction of whatever moves.
    fn all(equilibrium: &Equilibrium<'_, '_>) -> Self {
        let ways = 0..equilibrium.loaded.ways.len();
        Self {
            forwards: ways.fold(0, |all, way| all | 1 << way),
            backwards: equilibrium.moving(),
        }
    }

    /// What is possible in an equilibrium; everything, where the bounds are too wide to tell.
    pub(super) fn of(equilibrium: &Equilibrium<'_, '_>) -> Self {
        let ways = &equilibrium.loaded.ways;
        let moving = equilibrium.moving();
        let mut possible = Self::all(equilibrium);
        let Some(multipliers) = multipliers(equilibrium) else {
            return possible;
        };
        let mut rolling: Vec<Span> = vec![Span::ZERO; ways.len()];
        for (row, multiplier) in equilibrium.loaded.rows.iter().zip(multipliers) {
            let (own, shared) = row.ways;
            rolling[own] = multiplier * Span::only(row.factors.0 * row.speed);
            if let Some(shared) = shared {
                let passed = rolling[own]
                    * Span::between(ways[own].efficiency(false), ways[own].efficiency(true));
                rolling[shared] = rolling[shared].plus(passed);
            }
        }
        for (way, rolling) in rolling.iter().enumerate() {
            // Of power that counts as none, either direction will do.
            if rolling.low >= -NO_POWER && (rolling.low > NO_POWER || rolling.high <= NO_POWER) {
                possible.backwards &= !(1 << way);
            } else if rolling.high < -NO_POWER && moving >> way & 1 == 1 {
                possible.forwards &= !(1 << way);
            }
        }
        possible
    }
}

/// Bounds of the multipliers; nothing where a pivot may be 0.
fn multipliers(equilibrium: &Equilibrium<'_, '_>) -> Option<Vec<Span>> {
    let size = equilibrium.loaded.rows.len();
    let mut columns: Vec<Span> = Vec::with_capacity(size * (size + 1));
    for (column, row) in equilibrium.loaded.rows.iter().enumerate() {
        let efficiency = equilibrium.efficiencies(row);
        let entries = column * size..(column + 1) * size;
        let fixed = &equilibrium.fixed.as_slice()[entries.clone()];
        let lossy = &equilibrium.lossy.as_slice()[entries];
        let span = |(fixed, lossy): (&f64, &f64)| {
            Span::between(fixed + lossy * efficiency[0], fixed + lossy * efficiency[1])
        };
        columns.extend(fixed.iter().zip(lossy).map(span));
    }
    let right = &equilibrium.fixed.as_slice()[size * size..];
    columns.extend(right.iter().map(|&right| Span::only(right)));
    for step in 0..size {
        let pivots = &columns[step * size..(step + 1) * size];
        let below = (step..size).max_by(|&a, &b| pivots[a].least().total_cmp(&pivots[b].least()));
        let largest = below.filter(|&row| pivots[row].least() > 0.0)?;
        for column in step..=size {
            columns.swap(column * size + step, column * size + largest);
        }
        let scale = columns[step * size + step].inverse();
        for row in step + 1..size {
            let factor = columns[step * size + row];
            if factor.low == 0.0 && factor.high == 0.0 {
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
        let multiplier =
            columns[size * size + unknown] * columns[unknown * size + unknown].inverse();
        for row in 0..unknown {
            let change = multiplier * columns[unknown * size + row];
            let entry = &mut columns[size * size + row];
            *entry = *entry - change;
        }
        columns[size * size + unknown] = multiplier;
    }
    Some(columns[size * size..].to_vec())
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::base::element_set::ElementSet;
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
                    let Some(equilibrium) = Equilibrium::of(&combination, &model) else {
                        continue;
                    };
                    let all = Possible::all(&equilibrium);
                    let possible = Possible::of(&equilibrium);
                    let of = |outcome: Lossy| match outcome {
                        Lossy::Drives(torques) => vec![torques.efficiency],
                        Lossy::Ambiguous(efficiencies) => efficiencies,
                        _ => Vec::new(),
                    };
                    let [few, many] =
                        [possible, all].map(|ways| of(Lossy::among(&equilibrium, ways)));
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

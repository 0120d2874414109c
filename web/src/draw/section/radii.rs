//! How far from the main axis everything stands: grid rows, and the pitch circles of gears.
//!
//! Within a coupling pitch radii are as its tooth counts. Every set fills the room between the rows
//! by itself, or, drawn to scale, all teeth of a train are of one module. Suns must clear the shafts
//! inside them; where that would take too much room, they are drawn larger.

use levertrain_core::Train;
use levertrain_core::coupling::Profile;

use super::axes::Axes;
use super::circles::{Circle, Need, need_of_set, set_circles};
use super::pairs::Pairs;
use super::plan::Plan;

/// Distance of rows that shafts run along.
const ROW: f64 = 13.0;
/// From the outermost of the shafts inside to the suns' row.
const TO_SUNS: f64 = 20.0;
/// From the suns' row to the rings', at least, and how much more a train may take, by itself and drawn
/// to scale.
const LEAST: f64 = 124.0;
const MORE: f64 = 100.0;
const MORE_TO_SCALE: f64 = 900.0;
/// How that divides: to the low clutch row, the pins, the high clutch row and the rings.
const PARTS: [f64; 4] = [36.0, 32.0, 32.0, 24.0];
/// From the row of suns to their pitch circles, at least.
const SUN: f64 = 9.0;

/// Where the gears of a train and its rows are, as distances from the main axis in CSS pixels.
#[derive(Debug, Clone)]
pub struct Radii {
    /// Of each grid row.
    pub rows: Vec<f64>,
    /// For each coupling, its gears in the order of its profile.
    pub gears: Vec<Vec<Circle>>,
    /// Of the axis of each shaft that is drawn about its own.
    pub axes: Vec<Option<f64>>,
    /// Whether they were to be to scale and are not, as the drawing would be too high.
    pub limited: bool,
}

impl Radii {
    /// Finds room for the gears of a train; `to_scale` with one module for all.
    pub fn of(plan: &Plan, train: &Train, axes: &Axes, own: &[bool], to_scale: bool) -> Self {
        let couplings = &train.scenario().couplings;
        let profiles: Vec<Profile> = couplings.iter().map(|x| x.facts().profile()).collect();
        let pairs = Pairs {
            train,
            axes,
            own,
            profiles: &profiles,
        };
        let needs = needs(plan, &profiles, &pairs);
        let used = used(plan, own);
        let suns = sun_radius(plan, &used);
        let inside = suns + SUN;
        let mut rings = suns + LEAST;
        // Least module at which all suns clear what is inside, greatest that all fit with as it is.
        let (mut clears, mut fits, mut wanted) = (0.0_f64, f64::INFINITY, rings);
        for need in &needs {
            clears = clears.max(inside / need.least);
            fits = fits.min(need.module(rings));
            wanted = wanted.max(need.rings(inside / need.least));
        }
        let mut module = clears.max(fits);
        if to_scale {
            for need in &needs {
                module = module.min(need.module(rings + MORE_TO_SCALE));
            }
            for need in &needs {
                rings = rings.max(need.rings(module));
            }
        } else {
            rings = wanted.min(rings + MORE);
        }
        let mut pair_module = if to_scale { module } else { f64::INFINITY };
        for (need, profile) in needs.iter().zip(&profiles) {
            if !to_scale && !profile.coaxial {
                pair_module = pair_module.min(need.module(rings));
                // Nothing is gained by a large ring whose axis lies far below.
                if need.surrounds {
                    pair_module = pair_module.min(inside / need.least);
                }
            }
        }
        let placed = pairs.place(pair_module, inside, rings);
        let gears = profiles.iter().enumerate().map(|(at, profile)| {
            if !profile.coaxial {
                return placed.circles[at].clone();
            }
            let need = &needs[at];
            let own = if to_scale { module } else { need.module(rings) };
            set_circles(profile, plan.figures[at], need.scale(inside, own))
        });
        let axes_of_own = placed.axes.into_iter().zip(own);
        let axes_of_own = axes_of_own.map(|(axis, own)| own.then_some(axis));
        Self {
            gears: gears.collect(),
            rows: rows(plan, &used, suns, rings),
            axes: axes_of_own.collect(),
            limited: to_scale && module < clears,
        }
    }

    /// How far axes lie below the main one.
    pub fn below(&self) -> f64 {
        let gears = self.gears.iter().flatten();
        gears.map(|gear| -gear.centre).fold(0.0, f64::max)
    }
}

fn needs(plan: &Plan, profiles: &[Profile], pairs: &Pairs<'_>) -> Vec<Need> {
    let placed = pairs.place(1.0, 0.0, f64::INFINITY);
    let all = profiles.iter().enumerate();
    all.map(|(at, profile)| match profile.coaxial {
        true => need_of_set(profile, plan.figures[at]),
        false => pairs.need(profile, &placed.circles[at]),
    })
    .collect()
}

/// The rows that shafts run along.
fn used(plan: &Plan, own: &[bool]) -> Vec<bool> {
    let grid = &plan.grid;
    let mut used = vec![false; grid.rows()];
    for (member, run) in plan.runs.iter().enumerate() {
        // What turns about an axis of its own is drawn there.
        if own.get(member) == Some(&true) {
            continue;
        }
        for &(from, to) in run {
            let (from, to) = (grid.row(from), grid.row(to));
            if from == to {
                used[from] = true;
            }
        }
    }
    used
}

/// Distance of the row of suns.
fn sun_radius(plan: &Plan, used: &[bool]) -> f64 {
    let inside = 1..plan.grid.sun_row();
    TO_SUNS + ROW * inside.filter(|&row| used[row]).count() as f64
}

/// Distance of each grid row; unused rows take no room.
fn rows(plan: &Plan, used: &[bool], suns: f64, rings: f64) -> Vec<f64> {
    let grid = &plan.grid;
    let spread = (rings - suns) / LEAST;
    let mut radii = vec![0.0; grid.rows()];
    for row in 1..grid.rows() {
        let sun = grid.sun_row();
        let track = if used[row] { ROW } else { 0.0 };
        let step = match row {
            _ if row < sun => track,
            _ if row == sun => TO_SUNS,
            _ if row <= grid.ring_row() => PARTS[row - sun - 1] * spread,
            // The first drum clears the ring gears.
            _ if row == grid.ring_row() + 1 => 8.0 + track.min(12.0),
            _ if row == grid.brake_row() => 14.0,
            _ => track,
        };
        radii[row] = radii[row - 1] + step;
    }
    radii
}

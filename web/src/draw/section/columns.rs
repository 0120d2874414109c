//! How far apart the columns of a plan stand along the axis.

use levertrain_core::Train;

use super::pack_names::longest_name;
use super::parts::Figure;
use super::plan::{PackPlace, Plan};
use super::stage::NAME_SIZE;
use crate::draw::text;

/// Least distances along the axis, in CSS pixels.
const TRACK: f64 = 15.0;
const BESIDE_SET: f64 = 14.0;
const HALF_FACE: f64 = 24.0;
const HALF_FACE_OF_TWO: f64 = 50.0;
const BESIDE_WORDS: f64 = 40.0;
const BETWEEN_PACKS: f64 = 58.0;
/// From the middle of a set to that of the next: their levers stand under them, with letters.
const BETWEEN_SETS: f64 = 120.0;

/// Distance of each grid column from the one before it; unused columns take no room.
pub fn column_steps(plan: &Plan, train: &Train) -> Vec<f64> {
    let grid = &plan.grid;
    let used = used_columns(plan);
    let mut steps = vec![0.0; grid.columns()];
    // Where the last pack of each kind stands, from the left, and half the room its name takes.
    let mut last_pack: [Option<(f64, f64)>; 2] = [None, None];
    let (mut along, mut before_is_set, mut last_set) = (0.0, false, None::<f64>);
    for column in 0..grid.columns() {
        let in_set = grid.in_set(column);
        let after_set = column + 1 == grid.columns() && before_is_set;
        if !used[column] && !after_set {
            continue;
        }
        let mut step = match (before_is_set, in_set) {
            (true, true) => half_face(plan, column),
            (false, false) => TRACK,
            _ => BESIDE_SET,
        };
        // The first column of a set is not half a face away from the set before it.
        if in_set && (column == 0 || !grid.in_set(column - 1)) {
            step = BESIDE_SET.max(step.min(TRACK));
            let middle = along + half_face(plan, column);
            if let Some(before) = last_set {
                step = step.max(before + BETWEEN_SETS - middle);
            }
        }
        // The words at an end stand beside the name of the set there.
        let first_set = last_set.is_none() && in_set && !before_is_set && along == 0.0;
        if first_set || after_set {
            step = step.max(BESIDE_WORDS);
        }
        // Half the room that the widest name of each kind takes here; packs of one column stand
        // above one another.
        let mut halves: [Option<f64>; 2] = [None, None];
        for (kind, name) in packs_at(plan, train, column) {
            let half_name = text::width(&name, NAME_SIZE, true) / 2.0 + 5.0;
            halves[kind] = Some(halves[kind].map_or(half_name, |half| half.max(half_name)));
        }
        for (last, half_name) in last_pack.iter().zip(halves) {
            if let (Some((place, half)), Some(half_name)) = (last, half_name) {
                step = step.max(place + (half + half_name).max(BETWEEN_PACKS) - along);
            }
        }
        for (last, half_name) in last_pack.iter_mut().zip(halves) {
            if let Some(half_name) = half_name {
                *last = Some((along + step, half_name));
            }
        }
        along += step;
        if in_set && !grid.is_set_edge(column) {
            last_set = Some(along);
        }
        // Room for a brake over the middle of a set is made before the set: gears keep one width.
        let half = half_face(plan, column);
        if grid.in_set(column) && !grid.is_set_edge(column) && step > half {
            steps[column - 1] += step - half;
            step = half;
        }
        steps[column] = step;
        before_is_set = in_set;
    }
    steps
}

/// Half the width of the gears at a column; two gears side by side need more.
fn half_face(plan: &Plan, column: usize) -> f64 {
    match plan.figures.get(plan.grid.set_at(column)) {
        Some(Figure::Stepped { .. } | Figure::TwoSuns { .. }) => HALF_FACE_OF_TWO,
        _ => HALF_FACE,
    }
}

/// The packs whose middle is at a column: kind (0 brake, 1 clutch) and name.
fn packs_at<'a>(
    plan: &'a Plan,
    train: &'a Train,
    column: usize,
) -> impl Iterator<Item = (usize, String)> + 'a {
    let middles: Vec<(usize, usize)> = plan
        .packs
        .iter()
        .map(|pack| match *pack {
            PackPlace::Brake { column } => (0, column),
            PackPlace::Clutch { column, .. } => (1, column + 1),
        })
        .collect();
    let elements = train.scenario().elements.iter();
    let packs = elements
        .zip(middles)
        .filter(move |(_, (_, middle))| *middle == column)
        .map(|(element, (kind, _))| (kind, longest_name(element)));
    // What holds a member to the housing keeps clear of brakes.
    let supports = plan.supports.iter().filter(move |&&at| at == column);
    packs.chain(supports.map(|_| (0, String::new())))
}

fn used_columns(plan: &Plan) -> Vec<bool> {
    let grid = &plan.grid;
    let mut used: Vec<bool> = (0..grid.columns())
        .map(|column| grid.in_set(column))
        .collect();
    for &(from, to) in plan.runs.iter().flatten() {
        let (from, to) = (grid.column(from), grid.column(to));
        if from == to {
            used[from] = true;
        }
    }
    for pack in &plan.packs {
        match *pack {
            PackPlace::Brake { column } => used[column] = true,
            PackPlace::Clutch { column, .. } => used[column..column + 3].fill(true),
        }
    }
    used
}

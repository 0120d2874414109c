//! A plan fitted to a width: grid columns and rows turned into CSS pixels.

use levertrain_core::Train;
use levertrain_core::scenario::Element;

use super::Cache;
use super::handle::{Handle, StageSize};
use super::packs::longest_name;
use super::parts::Figure;
use super::plan::{PackPlace, Plan};
use crate::draw::scene::{Bounds, Point, at};
use crate::draw::text;

/// Least distances along the axis, in CSS pixels.
const TRACK: f64 = 15.0;
const BESIDE_SET: f64 = 14.0;
const HALF_FACE: f64 = 24.0;
const HALF_FACE_OF_TWO: f64 = 50.0;
const BETWEEN_PACKS: f64 = 58.0;
/// From the middle of a set to that of the next: their levers stand under them, with letters.
const BETWEEN_SETS: f64 = 120.0;
/// Room for the arrows and words at both ends.
const END: f64 = 78.0;
/// How far a train may be stretched along the axis to fill a wide page.
const MOST_STRETCH: f64 = 2.1;

/// Distances from the axis, in CSS pixels.
const ROW: f64 = 13.0;
/// Underside of the housing, from the top of the drawing.
pub const HOUSING: f64 = 34.0;
/// From the housing to the row that brakes hang on.
const BRAKE: f64 = 52.0;
/// Below the axis: the names of the sets.
const FOOT: f64 = 30.0;
const LEVER_HEIGHT: f64 = 300.0;

/// Font size of element names.
pub const NAME_SIZE: f64 = 13.0;
/// How far apart open plate packs stand.
pub const OPEN_GAP: f64 = 14.0;
/// Least size of what can be taken hold of.
const HANDLE: f64 = 48.0;

/// Where a coupling's lever may stand along the axis, in CSS pixels.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Column {
    /// Left end.
    pub left: f64,
    /// Right end.
    pub right: f64,
}

/// A plan fitted to a width.
#[derive(Debug, Clone)]
pub struct Stage<'a> {
    plan: &'a Plan,
    /// Where words were found to stand.
    pub(super) cache: &'a Cache,
    size: StageSize,
    columns: Vec<Column>,
    /// Position along the axis of each grid column.
    x: Vec<f64>,
    /// Position of each grid row, down from the top.
    y: Vec<f64>,
}

impl<'a> Stage<'a> {
    /// Fits a plan to an available width; wider where the train needs it.
    pub(super) fn fit(plan: &'a Plan, train: &Train, available: f64, cache: &'a Cache) -> Self {
        let steps = column_steps(plan, train);
        let natural: f64 = steps.iter().sum::<f64>() + 2.0 * END;
        let available = if available.is_finite() {
            available
        } else {
            natural
        };
        let stretch = ((available - 2.0 * END) / (natural - 2.0 * END)).clamp(1.0, MOST_STRETCH);
        let filled = (natural - 2.0 * END) * stretch + 2.0 * END;
        let width = available.max(natural).floor();
        let mut along = END + (width - filled) / 2.0;
        let x: Vec<f64> = steps
            .iter()
            .map(|step| {
                along += step * stretch;
                along
            })
            .collect();
        let rows = row_radii(plan);
        let brake_radius = rows[plan.grid.brake_row()];
        let axis = HOUSING + BRAKE + brake_radius;
        let y = rows.iter().map(|radius| axis - radius).collect();
        let size = StageSize {
            width,
            section_height: (axis + FOOT).ceil(),
            lever_height: LEVER_HEIGHT,
        };
        let columns = lever_columns(plan, &x, width);
        Self {
            plan,
            cache,
            size,
            columns,
            x,
            y,
        }
    }

    /// The plan.
    pub(super) fn plan(&self) -> &Plan {
        self.plan
    }

    /// Sizes of the drawings.
    pub fn size(&self) -> StageSize {
        self.size
    }

    /// Where levers may stand, one place per coupling.
    pub fn columns(&self) -> &[Column] {
        &self.columns
    }

    /// Position of a grid column.
    pub(super) fn x(&self, column: usize) -> f64 {
        self.x[column]
    }

    /// Position of a grid row.
    pub(super) fn y(&self, row: usize) -> f64 {
        self.y[row]
    }

    /// Position of the axis.
    pub(super) fn axis(&self) -> f64 {
        self.y[0]
    }

    /// Position of a grid node.
    pub(super) fn point(&self, node: usize) -> Point {
        let grid = &self.plan.grid;
        at(self.x[grid.column(node)], self.y[grid.row(node)])
    }

    /// Left and right end of the gears of a coupling.
    pub(super) fn face(&self, coupling: usize) -> (f64, f64) {
        let start = self.plan.grid.set_start(coupling);
        (self.x[start], self.x[start + 2])
    }

    /// Middle of an element's plate packs.
    pub(super) fn pack_centre(&self, element: usize) -> Point {
        match self.plan.packs[element] {
            PackPlace::Brake { column } => at(self.x[column], HOUSING + BRAKE / 2.0),
            PackPlace::Clutch { column, row, .. } => {
                at((self.x[column] + self.x[column + 2]) / 2.0, self.y[row])
            }
        }
    }

    /// Where elements can be taken hold of.
    pub fn handles(&self, train: &Train) -> Vec<Handle> {
        let elements = train.scenario().elements.iter().enumerate();
        elements
            .filter(|(_, element)| !element.is_one_way())
            .map(|(index, element)| {
                let centre = self.pack_centre(index);
                let clutch = matches!(element, Element::Clutch(_));
                let area = Bounds {
                    left: centre.x - HANDLE / 2.0,
                    top: centre.y - HANDLE / 2.0,
                    width: HANDLE,
                    height: HANDLE,
                };
                Handle {
                    id: element.id().to_owned(),
                    left: area.left,
                    top: area.top,
                    width: area.width,
                    height: area.height,
                    closes: if clutch { (1.0, 0.0) } else { (0.0, -1.0) },
                    both_ways: clutch,
                    travel: 2.0 * OPEN_GAP,
                }
            })
            .collect()
    }
}

/// Distance of each grid column from the one before it; unused columns take no room.
fn column_steps(plan: &Plan, train: &Train) -> Vec<f64> {
    let grid = &plan.grid;
    let used = used_columns(plan);
    let mut steps = vec![0.0; grid.columns()];
    // Where the last pack of each kind stands, from the left, and half the room its name takes.
    let mut last_pack: [Option<(f64, f64)>; 2] = [None, None];
    let (mut along, mut before_is_set, mut last_set) = (0.0, false, None::<f64>);
    for column in 0..grid.columns() {
        let in_set = grid.in_set(column);
        if !used[column] {
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

/// Distance of each grid row from the axis; unused rows take no room.
fn row_radii(plan: &Plan) -> Vec<f64> {
    let grid = &plan.grid;
    let mut used = vec![false; grid.rows()];
    for &(from, to) in plan.runs.iter().flatten() {
        let (from, to) = (grid.row(from), grid.row(to));
        if from == to {
            used[from] = true;
        }
    }
    let mut radii = vec![0.0; grid.rows()];
    let mut radius = 0.0;
    for row in 1..grid.rows() {
        let sun = grid.sun_row();
        radius += match row {
            _ if row < sun => {
                if used[row] {
                    ROW
                } else {
                    0.0
                }
            }
            _ if row == sun => 24.0,
            // Low clutch row, pins, high clutch row, ring, from the sun outwards.
            _ if row <= grid.ring_row() => [36.0, 32.0, 32.0, 24.0][row - sun - 1],
            // The first drum clears the ring gears.
            _ if row == grid.ring_row() + 1 => {
                if used[row] {
                    20.0
                } else {
                    8.0
                }
            }
            _ if row == grid.brake_row() => 14.0,
            _ => {
                if used[row] {
                    ROW
                } else {
                    0.0
                }
            }
        };
        radii[row] = radius;
    }
    radii
}

/// The room of each lever: half-way to the neighbouring sets, and not endlessly wide.
fn lever_columns(plan: &Plan, x: &[f64], width: f64) -> Vec<Column> {
    const APART: f64 = 16.0;
    const WIDEST: f64 = 150.0;
    let centres: Vec<f64> = (0..plan.grid.sets)
        .map(|set| x[plan.grid.set_start(set) + 1])
        .collect();
    let between = |a: f64, b: f64| (a + b) / 2.0;
    centres
        .iter()
        .enumerate()
        .map(|(set, &centre)| {
            let before = set
                .checked_sub(1)
                .map_or(END - APART, |s| between(centres[s], centre));
            let after = centres
                .get(set + 1)
                .map_or(width - END + APART, |&next| between(centre, next));
            Column {
                left: (before + APART).max(centre - WIDEST),
                right: (after - APART).min(centre + WIDEST),
            }
        })
        .collect()
}

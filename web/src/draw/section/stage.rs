//! A layout fitted to a width: grid columns and rows turned into places.

use levertrain_core::Train;

use super::circles::Circle;
use super::handle::{Handle, StageSize};
use super::lettering::Usual;
use super::plan::{PackPlace, Plan};
use super::power::WIDEST;
use super::{Layout, Places};
use crate::draw::scene::{Bounds, Point, at};

/// Room for the arrows and words at both ends.
const END: f64 = 78.0;
/// How far a train may be stretched along the axis to fill a wide page.
const MOST_STRETCH: f64 = 2.1;

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

/// A layout fitted to a width.
#[derive(Debug, Clone)]
pub struct Stage<'a> {
    layout: &'a Layout,
    width: f64,
    height: f64,
    columns: Vec<Column>,
    along: Along,
    /// Position along the axis of each grid column.
    x: Vec<f64>,
    /// Position of each grid row, down from the top.
    y: Vec<f64>,
}

/// How places along the axis of the narrowest drawing are spread out. The ends keep their size.
#[derive(Debug, Clone, Copy)]
struct Along {
    narrowest: f64,
    stretch: f64,
    width: f64,
}

impl Along {
    fn of(self, x: f64) -> f64 {
        match x {
            _ if x < END => x,
            _ if x > self.last() => self.width - (self.narrowest - x),
            _ => self.between(x),
        }
    }

    /// The same of what belongs to the train rather than to its ends, from which a wide page has it apart.
    fn of_train(self, x: f64) -> f64 {
        let inside = x.clamp(END, self.last());
        self.between(inside) + (x - inside)
    }

    fn between(self, x: f64) -> f64 {
        let filled = (self.narrowest - 2.0 * END) * self.stretch + 2.0 * END;
        let beside = (self.width - filled) / 2.0;
        END + beside + (x - END) * self.stretch
    }

    /// Where the train ends.
    fn last(self) -> f64 {
        self.narrowest - END
    }
}

impl<'a> Stage<'a> {
    /// Fits a layout to an available width; wider where the train needs it.
    pub(super) fn fit(layout: &'a Layout, available: f64) -> Self {
        let narrowest = layout.steps.iter().sum::<f64>() + 2.0 * END;
        let available = if available.is_finite() {
            available.max(narrowest)
        } else {
            narrowest
        };
        let width = available.floor();
        let stretch = (width - 2.0 * END) / (narrowest - 2.0 * END);
        let along = Along {
            narrowest,
            stretch: stretch.clamp(1.0, MOST_STRETCH),
            width,
        };
        let mut distance = END;
        let x: Vec<f64> = layout
            .steps
            .iter()
            .map(|step| {
                distance += step;
                along.of(distance)
            })
            .collect();
        let (plan, radii) = (&layout.plan, &layout.radii);
        let axis = HOUSING + BRAKE + radii.rows[plan.grid.brake_row()];
        Self {
            layout,
            width,
            height: (axis + radii.below() + FOOT).ceil(),
            columns: lever_columns(plan, &x, width),
            along,
            x,
            y: radii.rows.iter().map(|radius| axis - radius).collect(),
        }
    }

    /// The plan.
    pub(super) fn plan(&self) -> &'a Plan {
        &self.layout.plan
    }

    /// The train.
    pub fn train(&self) -> &'a Train {
        &self.layout.train
    }

    /// Whether shafts pass through one another as drawn.
    pub fn crosses(&self) -> bool {
        self.layout.crossings() > 0
    }

    /// Where all words stand, beside shafts or beside the lines of power.
    pub(super) fn places(&self, power: bool) -> &'a Places {
        let find = || Places::find(&self.layout.stage(0.0), WIDEST, Usual);
        match power {
            true => self.layout.with_power.get_or_init(find),
            false => &self.layout.places,
        }
    }

    /// Sizes of the drawings in CSS pixels.
    pub fn size(&self) -> StageSize {
        StageSize {
            width: self.width,
            section_height: self.height,
            lever_height: LEVER_HEIGHT,
            out_of_scale: self.layout.radii.limited,
        }
    }

    /// The same as the narrowest drawing of its own: words then have all the room that there is.
    pub(super) fn by_itself(&self) -> Self {
        Self {
            along: Along {
                narrowest: self.width,
                stretch: 1.0,
                width: self.width,
            },
            ..self.clone()
        }
    }

    /// The ground for levers that are shown `times` as large as they are drawn, in the same columns.
    pub(in crate::draw) fn for_levers(&self, times: f64) -> Self {
        let columns = self.columns.iter().map(|column| Column {
            left: column.left / times,
            right: column.right / times,
        });
        Self {
            width: self.width / times,
            columns: columns.collect(),
            ..self.clone()
        }
    }

    /// Where levers may stand, one place per coupling.
    pub fn columns(&self) -> &[Column] {
        &self.columns
    }

    /// Where a place of the narrowest drawing is in this one.
    pub(super) fn spread(&self, x: f64) -> f64 {
        self.along.of(x)
    }

    /// Where the name of a part of the train is, which stays beside it.
    pub(super) fn spread_name(&self, x: f64) -> f64 {
        self.along.of_train(x)
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
        let grid = self.plan().grid;
        at(self.x[grid.column(node)], self.y[grid.row(node)])
    }

    /// Position of a grid node that a member runs through: those that turn about axes of their own
    /// run along these.
    pub(super) fn point_of(&self, member: usize, node: usize) -> Point {
        let point = self.point(node);
        match self.own_axis(member) {
            Some(y) => at(point.x, y),
            None => point,
        }
    }

    /// Position of the axis of a member that turns about one of its own.
    pub(super) fn own_axis(&self, member: usize) -> Option<f64> {
        let axis = self.layout.radii.axes.get(member).copied().flatten();
        axis.map(|above| self.axis() - above)
    }

    /// The gears of a coupling, in the order of its profile.
    pub(super) fn gears(&self, coupling: usize) -> &[Circle] {
        &self.layout.radii.gears[coupling]
    }

    /// How far a coupling reaches below the main axis.
    pub(super) fn below(&self, coupling: usize) -> f64 {
        let lowest = self.gears(coupling).iter().map(|gear| -gear.centre);
        lowest.fold(0.0, f64::max)
    }

    /// Left and right end of the gears of a coupling.
    pub(super) fn face(&self, coupling: usize) -> (f64, f64) {
        let start = self.plan().grid.set_start(coupling);
        (self.x[start], self.x[start + 2])
    }

    /// How much wider the gears of a coupling are than in the narrowest drawing, where they are
    /// `wide` here: over all of its width or half of it.
    pub(super) fn widened(&self, coupling: usize, wide: f64) -> f64 {
        let (left, right) = self.face(coupling);
        let widened = (right - left) * (1.0 - 1.0 / self.along.stretch);
        let share = if wide > 0.6 * (right - left) {
            1.0
        } else {
            0.5
        };
        widened * share
    }

    /// Middle of an element's plate packs.
    pub(super) fn pack_centre(&self, element: usize) -> Point {
        match self.plan().packs[element] {
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
                let flat = self.plan().packs[index].is_flat();
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
                    closes: if flat { (1.0, 0.0) } else { (0.0, -1.0) },
                    both_ways: flat,
                    travel: 2.0 * OPEN_GAP,
                }
            })
            .collect()
    }
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

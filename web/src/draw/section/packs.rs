//! Clutches and brakes as facing plate packs, open or closed, and the housing brakes hang on.

use levertrain_core::Body;

use super::plan::PackPlace;
use super::power;
use super::stage::{HOUSING, OPEN_GAP, Stage};
use super::wires::stroke;
use crate::draw::scene::{Bounds, Ink, Point, Scene, Stroke, at};
use crate::motion::live::Live;

/// Plates of each pack.
const PLATES: usize = 3;
/// Distance between plates of a pack.
const PITCH: f64 = 4.0;
/// Half the length of a plate.
pub const REACH: f64 = 18.0;
const PLATE: f64 = 2.25;
/// How far the hatching of a piece of ground reaches: no further than words keep clear of its packs.
const GROUND: f64 = 4.0;
/// How far apart closed packs stand: they touch.
const CLOSED_GAP: f64 = 2.5;

/// Draws the housing along the top, hatched.
pub fn draw_housing(scene: &mut Scene, stage: &Stage<'_>) {
    let width = stage.size().width;
    scene.ground(
        at(6.0, HOUSING),
        at(width - 6.0, HOUSING),
        (0.0, -7.0),
        Ink::Housing,
    );
}

/// Draws every element.
// Large letters call it too, which is no reason to part it from the drawing of a first view.
#[inline(always)]
pub fn draw(scene: &mut Scene, stage: &Stage<'_>, live: &Live<'_>) {
    for (index, element) in live.train.scenario().elements.iter().enumerate() {
        let centre = stage.pack_centre(index);
        let applied = live.applied.contains(index);
        let fights = live.fighting.contains(index);
        let ink = match (fights, applied) {
            (true, _) => Ink::Fight,
            (false, true) => Ink::Text,
            (false, false) => Ink::Quiet,
        };
        let gap = OPEN_GAP + (CLOSED_GAP - OPEN_GAP) * live.grips[index];
        let [first, second] = live.train.ends(index);
        let pack = Pack {
            centre,
            gap,
            ink,
            closed: live.grips[index] > 0.99,
            one_way: element.is_one_way(),
        };
        match stage.plan().packs[index] {
            PackPlace::Brake { column } => {
                let lead = at(stage.x(column), stage.y(stage.plan().grid.brake_row()));
                pack.upright(scene, live, first, lead);
            }
            PackPlace::Clutch {
                column,
                row,
                flipped,
            } => {
                let (left, right) = if flipped {
                    (second, first)
                } else {
                    (first, second)
                };
                let leads = [column, column + 2].map(|column| at(stage.x(column), stage.y(row)));
                // Power from the left lead to the right one.
                let power = live.powers.as_ref().map(|powers| {
                    let power = powers.elements[index];
                    if flipped { -power } else { power }
                });
                let sides = [(left, leads[0]), (right, leads[1])];
                // The housing is the second end of whatever it holds.
                let way = if flipped { -1.0 } else { 1.0 };
                let fixed = (second == Body::Housing).then_some(way);
                pack.flat(scene, live, sides, fixed, power);
            }
        }
        if fights {
            break_mark(scene, centre);
        }
    }
}

/// The box that plate packs fill, open or closed.
pub fn area(centre: Point, upright: bool) -> Bounds {
    const DEEP: f64 = (PLATES - 1) as f64 * PITCH + OPEN_GAP / 2.0 + 4.0;
    let (x, y) = if upright {
        (REACH + 3.0, DEEP + 4.0)
    } else {
        (DEEP, REACH + 3.0)
    };
    Bounds {
        left: centre.x - x,
        top: centre.y - y,
        width: 2.0 * x,
        height: 2.0 * y,
    }
}

/// The box of the sign that packs fight.
pub fn break_area(centre: Point) -> Bounds {
    Bounds {
        left: centre.x - REACH - 8.0,
        top: centre.y - 10.0,
        width: 2.0 * REACH + 16.0,
        height: 20.0,
    }
}

/// A zigzag across the packs: they fight.
fn break_mark(scene: &mut Scene, centre: Point) {
    let tooth = |index: usize| {
        let along = -REACH - 6.0 + index as f64 * (2.0 * REACH + 12.0) / 6.0;
        at(
            centre.x + along,
            centre.y + if index.is_multiple_of(2) { 7.0 } else { -7.0 },
        )
    };
    let points: Vec<Point> = (0..=6).map(tooth).collect();
    scene.path(points.clone(), Stroke::solid(Ink::Paper, 6.0));
    scene.path(points, Stroke::solid(Ink::Fight, 2.5));
}

/// The line from the lead of a shaft or of the housing to a pack, with its power where that is shown.
fn lead_line(
    scene: &mut Scene,
    live: &Live<'_>,
    body: Body,
    [from, to]: [Point; 2],
    power: Option<f64>,
) {
    match power {
        Some(power) if body != Body::Housing => power::line(scene, live, body, [from, to], power),
        _ => scene.line(from, to, stroke(live, body)),
    }
}

/// Two facing packs.
struct Pack {
    centre: Point,
    gap: f64,
    ink: Ink,
    closed: bool,
    one_way: bool,
}

impl Pack {
    /// A brake: one pack hangs from the housing, the other stands on the shaft's lead and
    /// rises to it.
    // Inline, as `draw`.
    #[inline(always)]
    fn upright(&self, scene: &mut Scene, live: &Live<'_>, shaft: Body, lead: Point) {
        let x = self.centre.x;
        // What is held carries no power.
        let held = live.powers.as_ref().map(|_| 0.0);
        if self.one_way {
            let stub = [at(x, HOUSING), self.centre];
            lead_line(scene, live, Body::Housing, stub, held);
            lead_line(scene, live, shaft, [lead, self.centre], held);
            self.rollers(scene, (0.0, -1.0));
            return;
        }
        let fixed = HOUSING + 7.0;
        let moving = fixed + self.depth() + self.gap;
        let stub = [at(x, HOUSING), at(x, fixed)];
        lead_line(scene, live, Body::Housing, stub, held);
        let lead_top = moving + self.depth();
        lead_line(scene, live, shaft, [lead, at(x, lead_top)], held);
        if self.closed {
            self.block(
                scene,
                at(x - REACH, fixed),
                2.0 * REACH,
                2.0 * self.depth() + self.gap,
            );
        }
        for (start, ink) in [(fixed, self.ink), (moving, self.ink)] {
            for plate in 0..PLATES {
                let y = start + plate as f64 * PITCH;
                scene.line(
                    at(x - REACH, y),
                    at(x + REACH, y),
                    Stroke::solid(ink, PLATE),
                );
            }
        }
    }

    /// A clutch: a pack on each lead, both of which move. A brake within a carrier that is part of the housing: what is on
    /// the lead of that stays where it is, and ends in a piece of ground.
    // Inline, as `draw`.
    #[inline(always)]
    fn flat(
        &self,
        scene: &mut Scene,
        live: &Live<'_>,
        sides: [(Body, Point); 2],
        fixed: Option<f64>,
        power: Option<f64>,
    ) {
        let Point { mut x, y } = self.centre;
        if self.one_way {
            for ((body, lead), way) in sides.into_iter().zip([1.0, -1.0]) {
                let power = power.map(|power| way * power);
                lead_line(scene, live, body, [lead, self.centre], power);
            }
            self.rollers(scene, (1.0, 0.0));
        } else {
            x += fixed.map_or(0.0, |side| side * (OPEN_GAP - self.gap) / 2.0);
            if self.closed {
                let width = 2.0 * self.depth() + self.gap;
                let corner = at(x - width / 2.0, y - REACH);
                self.block(scene, corner, width, 2.0 * REACH);
            }
            for ((body, lead), side) in sides.into_iter().zip([-1.0, 1.0]) {
                let inner = x + side * self.gap / 2.0;
                let outer = inner + side * self.depth();
                let power = power.map(|power| -side * power);
                lead_line(scene, live, body, [lead, at(outer, y)], power);
                for plate in 0..PLATES {
                    let x = inner + side * plate as f64 * PITCH;
                    scene.line(
                        at(x, y - REACH),
                        at(x, y + REACH),
                        Stroke::solid(self.ink, PLATE),
                    );
                }
            }
        }
        if let Some(side) = fixed {
            let x = self.centre.x + side * (OPEN_GAP / 2.0 + self.depth());
            let (top, bottom) = (at(x, y - REACH), at(x, y + REACH));
            scene.ground(top, bottom, (side * GROUND, 0.0), Ink::Housing);
        }
    }

    /// A one-way clutch: a wedge against a bar, filled when it locks.
    fn rollers(&self, scene: &mut Scene, (dx, dy): (f64, f64)) {
        const LENGTH: f64 = 9.0;
        const HALF: f64 = 13.0;
        let place = |along: f64, side: f64| {
            at(
                self.centre.x + dx * along - dy * side,
                self.centre.y + dy * along + dx * side,
            )
        };
        let wedge = vec![
            place(LENGTH, 0.0),
            place(-LENGTH, HALF),
            place(-LENGTH, -HALF),
        ];
        scene.fill(
            wedge.clone(),
            if self.closed { self.ink } else { Ink::Paper },
        );
        let outline = wedge.iter().chain(wedge.first()).copied().collect();
        scene.path(outline, Stroke::solid(self.ink, PLATE));
        let bar = Stroke::solid(self.ink, PLATE + 1.0);
        scene.line(place(LENGTH, HALF), place(LENGTH, -HALF), bar);
    }

    fn depth(&self) -> f64 {
        (PLATES - 1) as f64 * PITCH
    }

    /// The ground of a closed pack, so that open and closed differ in shape and not in ink only.
    fn block(&self, scene: &mut Scene, corner: Point, width: f64, height: f64) {
        const RIM: f64 = 2.0;
        let area = Bounds {
            left: corner.x - RIM,
            top: corner.y - RIM,
            width: width + 2.0 * RIM,
            height: height + 2.0 * RIM,
        };
        scene.fill_box(area, Ink::Metal);
        scene.outline_box(area, Stroke::solid(self.ink, 1.0));
    }
}

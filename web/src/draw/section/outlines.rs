//! Where the gears of a coupling are in half-section: a box each, as they lie along the axis.

use levertrain_core::coupling::{CouplingKind, Mount, Teeth};
use levertrain_core::short_sort::sort_short_by_key;

use super::parts::{Figure, Level, Part, Side};
use super::stage::Stage;
use crate::draw::scene::Bounds;

/// How far the sides of a carrier stand from its pins.
pub const CARRIER_SIDE: f64 = 9.0;
/// How much narrower than the set's face a pinion is, each side.
const PINION_INSET: f64 = 8.0;
/// Least distance of gears that do not mesh.
const APART: f64 = 3.0;
/// Height of the short pinions between two suns and the long pinions.
const SHORT: f64 = 27.0;

/// A gear of a pinion.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PinionFace {
    /// Its outline.
    pub area: Bounds,
    /// Index of its pinion.
    pub pinion: usize,
    /// Its tooth count.
    pub teeth: Teeth,
    /// What it is called in formulas.
    pub letter: &'static str,
    /// Where its pin begins and ends along the axis.
    pub pin: [f64; 2],
}

/// The box of a member's gear, or of a carrier's sides.
pub fn part_area(stage: &Stage<'_>, part: &Part) -> Bounds {
    let grid = &stage.plan().grid;
    let (left, right) = stage.face(part.coupling);
    let sun = stage.y(grid.sun_row());
    let pin = stage.y(grid.pin_row());
    let ring = stage.y(grid.ring_row());
    let figure = stage.plan().figures[part.coupling];
    let (pair, internal) = match figure {
        Figure::Pair { internal, .. } => (!internal, internal),
        _ => (false, false),
    };
    // (outer edge, inner edge), as distances down from the top.
    let (top, bottom) = match (part.level, pair) {
        (Level::Sun, true) => (meeting(stage, part.coupling) + 0.5, sun + 7.0),
        (Level::Sun, false) if is_large_sun(figure, part) => {
            (between(stage).1 - SHORT + 1.0, sun + 7.0)
        }
        (Level::Sun, false) => (sun - 27.0, sun + 7.0),
        (Level::Pin, true) => {
            let meeting = meeting(stage, part.coupling) - 0.5;
            (2.0 * pin - meeting, meeting)
        }
        (Level::Pin, false) => (pin - CARRIER_SIDE, pin + CARRIER_SIDE),
        // The pinion of an internal pair is on the main axis and the gear around it is not: its
        // rim reaches in to where the two mesh.
        (Level::Ring, _) if internal => (ring - 10.0, sun - 28.0),
        (Level::Ring, _) => (ring - 10.0, ring + 9.0),
    };
    let inset = if part.level == Level::Pin && !pair {
        0.0
    } else {
        1.0
    };
    let (left, right) = half((left + inset, right - inset), part.side, APART);
    Bounds {
        left,
        top,
        width: right - left,
        height: bottom - top,
    }
}

/// Whether a part is the sun of the long pinions.
fn is_large_sun(figure: Figure, part: &Part) -> bool {
    matches!(figure, Figure::TwoSuns { small } if small != part.side)
}

/// Where the two gears of an external pair mesh: it divides the distance of their axes as their
/// teeth do, as far as both are still seen.
fn meeting(stage: &Stage<'_>, coupling: usize) -> f64 {
    const LEAST: f64 = 11.0;
    const MOST: f64 = 64.0;
    let grid = &stage.plan().grid;
    let (axis, pin, sun) = (
        stage.axis(),
        stage.y(grid.pin_row()),
        stage.y(grid.sun_row()),
    );
    let Figure::Pair { share, .. } = stage.plan().figures[coupling] else {
        return sun;
    };
    let meeting = axis - (axis - pin) * share;
    meeting.clamp(pin + LEAST, (pin + MOST).min(sun - LEAST))
}

/// What a sun or ring has besides its box: the step that reaches to the smaller of two pinion
/// steps.
pub fn raised(stage: &Stage<'_>, part: &Part) -> Option<Bounds> {
    let (first, second) = steps(stage, part.coupling)?;
    let Figure::Stepped { sun, .. } = stage.plan().figures[part.coupling] else {
        return None;
    };
    let own = match (part.level, part.side) {
        (Level::Pin, _) => return None,
        (Level::Ring, _) => second,
        (Level::Sun, side) if side == sun.other() => second,
        (Level::Sun, _) => first,
    };
    let base = part_area(stage, part);
    let (top, bottom) = if part.level == Level::Ring {
        (base.top + base.height, own.top - 1.5)
    } else {
        (own.top + own.height + 1.5, base.top)
    };
    (bottom - top > 1.0).then_some(Bounds {
        left: own.left,
        top,
        width: own.width,
        height: bottom - top,
    })
}

/// The strip along which a box and the step on it are one.
pub fn seam(base: &Bounds, step: &Bounds) -> Bounds {
    let y = if step.top < base.top {
        base.top
    } else {
        step.top
    };
    Bounds {
        left: step.left + 1.0,
        top: y - 1.5,
        width: step.width - 2.0,
        height: 3.0,
    }
}

/// The gears of a set's pinions, from the axis outwards.
pub fn pinion_faces(
    stage: &Stage<'_>,
    coupling: usize,
    facts: &dyn CouplingKind,
) -> Vec<PinionFace> {
    let (left, right) = stage.face(coupling);
    let (outer, inner) = between(stage);
    let gears = facts.profile().gears;
    let pinions = gears.iter().filter_map(|gear| match gear.mount {
        Mount::Pinion { pinion, .. } => Some((pinion, gear.teeth)),
        Mount::Member(_) => None,
    });
    let face = |area, (pinion, teeth), letter, pin| PinionFace {
        area,
        pinion,
        teeth,
        letter,
        pin,
    };
    let row = |top: f64, bottom: f64, side| {
        let whole = (left + PINION_INSET, right - PINION_INSET);
        let (left, right) = half(whole, side, APART);
        Bounds {
            left,
            top: top + 0.5,
            width: right - left,
            height: bottom - top - 1.0,
        }
    };
    match stage.plan().figures[coupling] {
        Figure::Set { pinion_rows } => {
            let height = (inner - outer) / pinion_rows as f64;
            let edge = |row: usize| inner - height * row as f64;
            pinions
                .enumerate()
                .map(|(index, pinion)| {
                    let area = row(edge(index + 1), edge(index), Side::Whole);
                    face(area, pinion, "P", [left, right])
                })
                .collect()
        }
        Figure::TwoSuns { small } => {
            let mut pinions: Vec<(usize, Teeth)> = pinions.collect();
            sort_short_by_key(&mut pinions, |&(pinion, _)| pinion);
            let edge = inner - SHORT;
            let short = row(edge, inner, small);
            let long = row(outer, edge, Side::Whole);
            // The short pinions' pins end within the set, and its other side holds the long ones.
            let short_pin = match small {
                Side::Right => [short.left - 4.0, right],
                _ => [left, short.left + short.width + 4.0],
            };
            let pins = [short_pin, [left, right]];
            let faces = pinions.into_iter().zip([short, long]).zip(pins);
            faces
                .map(|((pinion, area), pin)| face(area, pinion, "P", pin))
                .collect()
        }
        Figure::Stepped { .. } => {
            let areas = steps(stage, coupling).map(|(first, second)| [first, second]);
            let areas = areas.into_iter().flatten().zip(["P", "Q"]);
            areas
                .zip(pinions)
                .map(|((area, letter), pinion)| face(area, pinion, letter, [left, right]))
                .collect()
        }
        Figure::Pair { .. } => Vec::new(),
    }
}

/// The edges of suns and rings that pinions reach to, the outer one first.
fn between(stage: &Stage<'_>) -> (f64, f64) {
    let grid = &stage.plan().grid;
    (
        stage.y(grid.ring_row()) + 10.0,
        stage.y(grid.sun_row()) - 28.0,
    )
}

/// The boxes of the two steps of stepped pinions, that on the first sun first.
///
/// The larger step reaches its mate and stays clear of the other; the smaller is as much smaller
/// as its teeth are fewer, within what leaves room for its name and can still be told apart.
fn steps(stage: &Stage<'_>, coupling: usize) -> Option<(Bounds, Bounds)> {
    let Figure::Stepped {
        sun,
        sun_larger,
        smaller,
        second_sun,
    } = stage.plan().figures[coupling]
    else {
        return None;
    };
    let (left, right) = stage.face(coupling);
    let (outer, inner) = between(stage);
    let large = (inner - outer) / 2.0 - APART;
    let small = large * smaller.clamp(0.35, 0.97);
    let pin = if sun_larger || second_sun {
        inner - large
    } else {
        outer + large
    };
    let (first, second) = if sun_larger {
        (large, small)
    } else {
        (small, large)
    };
    let area = |side, radius: f64| {
        let (left, right) = half((left + PINION_INSET, right - PINION_INSET), side, 0.0);
        Bounds {
            left,
            top: pin - radius + 0.5,
            width: right - left,
            height: 2.0 * radius - 1.0,
        }
    };
    Some((area(sun, first), area(sun.other(), second)))
}

/// The half of a stretch on a side, with a gap in the middle between both.
fn half((left, right): (f64, f64), side: Side, gap: f64) -> (f64, f64) {
    let middle = (left + right) / 2.0;
    match side {
        Side::Left => (left, middle - gap / 2.0),
        Side::Right => (middle + gap / 2.0, right),
        Side::Whole => (left, right),
    }
}

//! Where the gears of a coupling are in half-section: a box each, as they lie along the axis.

use levertrain_core::Body;
use levertrain_core::coupling::{CouplingKind, Mount, Role, Teeth};

use super::circles::{Circle, RIM};
use super::grid::Node;
use super::parts::{Figure, Level, Part, Side};
use super::plan::member;
use super::stage::Stage;
use crate::draw::scene::{Bounds, Point, at};

/// How far the sides of a carrier stand from its pins.
pub const CARRIER_SIDE: f64 = 9.0;
/// How much narrower than the set's face a pinion is, each side, and what has the carrier's sides
/// beside it.
const INSET: f64 = 8.0;
/// Least distance of gears that do not mesh.
const APART: f64 = 3.0;
/// From the row of suns down to their inside.
const HUB: f64 = 7.0;

/// A gear of a pinion.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PinionFace {
    /// Its outline.
    pub area: Bounds,
    /// What of it no other pinion lies before.
    pub clear: Bounds,
    /// Index of its pinion.
    pub pinion: usize,
    /// Its tooth count.
    pub teeth: Teeth,
    /// What it is called in formulas.
    pub letter: &'static str,
    /// Where its pin begins and ends along the axis.
    pub pin: [f64; 2],
}

/// What joins a gear to a lead of its shaft, where that does not reach it.
#[derive(Debug, Clone)]
pub struct Stem {
    /// Of what it is.
    pub body: Body,
    /// The node of the gear's row that the lead meets.
    pub node: Node,
    /// From there to the gear, straight from point to point.
    pub points: Vec<Point>,
}

/// The box of a member's gear, or of a carrier's sides.
pub fn part_area(stage: &Stage<'_>, part: &Part) -> Bounds {
    let train = stage.train();
    let facts = train.scenario().couplings[part.coupling].facts();
    let (left, right) = stage.face(part.coupling);
    let figure = stage.plan().figures[part.coupling];
    let gears = facts.profile().gears;
    let own = gears.iter().zip(stage.gears(part.coupling));
    let own = own
        .into_iter()
        .find(|(gear, _)| gear.mount == Mount::Member(part.member));
    let Some((gear, &circle)) = own else {
        let (top, bottom) = pins(stage, part.coupling, facts);
        return upright(
            stage,
            (left, right),
            (top + CARRIER_SIDE, bottom - CARRIER_SIDE),
        );
    };
    let axis = stage.plan().grid.sun_row();
    let hub = stage.axis() - stage.y(axis) - HUB;
    let ends = match part.level {
        _ if gear.internal => (circle.top() + RIM, circle.top()),
        Level::Pin => (circle.top() - 0.5, circle.centre - circle.radius + 0.5),
        // About an axis of its own it is solid, and cut there.
        _ if stage.own_axis(member(part.body, train)).is_some() => {
            (circle.top() - 0.5, circle.centre)
        }
        _ => (circle.top() - 0.5, hub.min(circle.top() - 2.0)),
    };
    // A carrier's sides may have to pass it.
    let (pins, row) = (
        pins(stage, part.coupling, facts),
        stage.axis() - stage.y(stage.plan().grid.pin_row()),
    );
    let (top, bottom) = (
        row.max(pins.0 + CARRIER_SIDE),
        row.min(pins.1 - CARRIER_SIDE),
    );
    let passed = facts.profile().coaxial && ends.1 < top && bottom < ends.0;
    let inset = if passed { INSET } else { 1.0 };
    let side = match (figure, facts.members()[part.member].role) {
        (Figure::Stepped { sun }, Role::Sun) => sun,
        (Figure::Stepped { sun }, Role::Ring) => sun.other(),
        _ => part.side,
    };
    upright(
        stage,
        half((left + inset, right - inset), side, APART),
        ends,
    )
}

/// A box along the axis from one distance above it down to another.
fn upright(stage: &Stage<'_>, (left, right): (f64, f64), (top, bottom): (f64, f64)) -> Bounds {
    Bounds {
        left,
        top: stage.axis() - top,
        width: right - left,
        height: top - bottom,
    }
}

/// The distances of the outermost and the innermost pins of a set.
fn pins(stage: &Stage<'_>, coupling: usize, facts: &dyn CouplingKind) -> (f64, f64) {
    let gears = facts.profile().gears;
    let circles = gears.iter().zip(stage.gears(coupling));
    let pinions = circles.filter(|(gear, _)| matches!(gear.mount, Mount::Pinion { .. }));
    let start = (f64::NEG_INFINITY, f64::INFINITY);
    pinions.fold(start, |(top, bottom), (_, circle)| {
        (top.max(circle.centre), bottom.min(circle.centre))
    })
}

/// What joins gears and the leads of their shafts.
pub fn stems(stage: &Stage<'_>) -> Vec<Stem> {
    let (plan, train) = (stage.plan(), stage.train());
    let grid = plan.grid;
    let mut stems = Vec::new();
    for part in &plan.parts {
        // The sides of a carrier reach their leads by themselves.
        let carrier = stage.gears(part.coupling).len() > 2 && part.level == Level::Pin;
        if carrier {
            continue;
        }
        let member = member(part.body, train);
        let area = part_area(stage, part);
        let nodes = part.nodes(&grid);
        for &node in &nodes {
            let leads = |&(a, b): &(Node, Node)| {
                (a == node && !nodes.contains(&b)) || (b == node && !nodes.contains(&a))
            };
            if !plan.runs[member].iter().any(leads) {
                continue;
            }
            let points = to_gear(stage.point_of(member, node), area, stage.own_axis(member));
            if points.len() > 1 {
                stems.push(Stem {
                    body: part.body,
                    node,
                    points,
                });
            }
        }
    }
    stems
}

/// From a lead along its row to a gear's box, and up or down to it where it is not in the row.
fn to_gear(lead: Point, area: Bounds, own_axis: Option<f64>) -> Vec<Point> {
    const TOUCH: f64 = 1.5;
    let (right, bottom) = (area.left + area.width, area.top + area.height);
    let mut points = vec![lead];
    let beside = lead.x.clamp(area.left, right);
    if lead.y < area.top - TOUCH || lead.y > bottom + TOUCH {
        // A web stands in the middle of a rim; that about an axis of its own closes the gear off.
        let foot = if own_axis.is_some() {
            lead.x
        } else {
            area.middle().x
        };
        points.push(at(foot, lead.y));
        points.push(at(foot, lead.y.clamp(area.top, bottom)));
    } else {
        points.push(at(beside, lead.y));
    }
    points.dedup_by(|one, other| (one.x - other.x).hypot(one.y - other.y) < TOUCH);
    points
}

/// The gears of a set's pinions; those that others lie before come first.
pub fn pinion_faces(
    stage: &Stage<'_>,
    coupling: usize,
    facts: &dyn CouplingKind,
) -> Vec<PinionFace> {
    let (left, right) = stage.face(coupling);
    let figure = stage.plan().figures[coupling];
    let gears = facts.profile().gears;
    let circles = gears.iter().zip(stage.gears(coupling));
    let pinions = circles.filter_map(|(gear, &circle)| match gear.mount {
        Mount::Pinion { pinion, .. } => Some((pinion, gear.teeth, circle)),
        Mount::Member(_) => None,
    });
    let face = |nth: usize, (pinion, teeth, circle): (usize, Teeth, Circle)| {
        let (side, letter, gap) = match (figure, nth) {
            (Figure::Stepped { sun }, 0) => (sun, "P", 0.0),
            (Figure::Stepped { sun }, _) => (sun.other(), "Q", 0.0),
            (Figure::TwoSuns { small }, 1) => (small, "P", APART),
            _ => (Side::Whole, "P", 0.0),
        };
        let ends = (circle.top() - 0.5, circle.centre - circle.radius + 0.5);
        let area = upright(stage, half((left + INSET, right - INSET), side, gap), ends);
        // The pins of short pinions end within the set, and its other side holds the long ones.
        let pin = match (figure, nth) {
            (Figure::TwoSuns { small: Side::Right }, 1) => [area.left - 4.0, right],
            (Figure::TwoSuns { .. }, 1) => [left, area.left + area.width + 4.0],
            _ => [left, right],
        };
        let clear = match (figure, nth) {
            (Figure::TwoSuns { small }, 0) => {
                let ends = (area.left, area.left + area.width);
                let (left, right) = half(ends, small.other(), APART);
                Bounds {
                    left,
                    width: right - left,
                    ..area
                }
            }
            _ => area,
        };
        PinionFace {
            area,
            clear,
            pinion,
            teeth,
            letter,
            pin,
        }
    };
    pinions
        .enumerate()
        .map(|(nth, pinion)| face(nth, pinion))
        .collect()
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

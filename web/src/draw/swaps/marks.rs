//! What is drawn of a plan: swaps at the back, nodes over them.

use levertrain_core::words::word;

use super::View;
use super::axis::{SIZE, Side};
use super::plan::{HEADING, Line, Plan, RADIUS, Spot};
use crate::draw::scene::{Align, Bounds, Dash, Ink, Label, Point, Scene, Stroke, at};

/// How far the frame of what is applied now is outside its box or circle, in CSS pixels.
const FRAME: f64 = 3.5;

/// Between named ranges.
pub(super) const SINGLE: Stroke = Stroke::solid(Ink::Quiet, 1.5);
pub(super) const DOUBLE: Stroke = Stroke::broken(Ink::Quiet, 1.25, Dash::Dashed);
/// To what has no name.
const FAINT: Stroke = Stroke::solid(Ink::Guide, 1.25);
/// From what is applied now.
pub(super) const FROM_HERE: Stroke = Stroke::solid(Ink::Forward, 2.5);
/// Along a chain.
pub(super) const ALONG: Stroke = Stroke::solid(Ink::Lit, 8.0);

/// Draws swaps and nodes.
pub(super) fn draw(scene: &mut Scene, view: &View<'_>, plan: &Plan) {
    let now = view.graph.node_of(view.now);
    if let Some(top) = plan.backward {
        let line = Stroke::solid(Ink::Guide, 1.0);
        scene.line(at(0.0, top), at(scene.width, top), line);
    }
    for block in &plan.blocks {
        scene.outline_box(*block, Stroke::solid(Ink::Guide, 1.0));
    }
    let spot_of = |node: usize| {
        plan.spots
            .binary_search_by_key(&node, |spot| spot.node)
            .ok()
    };
    let is_faint = |line: &&Line| line.ends.iter().any(|&end| plan.spots[end].name.is_none());
    let is_from_here = |line: &&Line| {
        let is_end = line
            .ends
            .iter()
            .any(|&end| Some(plan.spots[end].node) == now);
        is_end && line.kind.is_single()
    };
    // In a block all are at hand of each other.
    let leads_on = |line: &&Line| {
        let [one, other] = line
            .ends
            .map(|end| &view.graph.nodes()[plan.spots[end].node].ratio);
        one != other
    };
    for line in plan
        .lines
        .iter()
        .filter(is_faint)
        .filter(leads_on)
        .filter(|line| !is_from_here(line))
    {
        scene.path(plan.course(line), FAINT);
    }
    for pair in view.chain.windows(2) {
        let ends = [spot_of(pair[0]), spot_of(pair[1])];
        if let [Some(from), Some(to)] = ends {
            let kind = view.graph.swap(pair[0], pair[1]).kind();
            let course = plan.course(&Line {
                ends: [from, to],
                kind,
            });
            scene.path(course, ALONG);
        }
    }
    for line in plan.lines.iter().filter(|line| !is_faint(line)) {
        let stroke = if line.kind.is_single() {
            SINGLE
        } else {
            DOUBLE
        };
        if !is_from_here(&line) {
            scene.path(plan.course(line), stroke);
        }
    }
    for line in plan.lines.iter().filter(is_from_here) {
        scene.path(plan.course(line), FROM_HERE);
    }
    for spot in &plan.spots {
        let is_now = Some(spot.node) == now;
        match &spot.name {
            Some(name) => named(scene, spot, name, is_now),
            None => unnamed(scene, spot, is_now, view.chain.contains(&spot.node)),
        }
    }
    if let Some(top) = plan.backward {
        scene.label(Label {
            at: at(2.0, top + HEADING / 2.0),
            text: word("diagram-swaps-backward").to_owned(),
            size: SIZE,
            bold: false,
            ink: Ink::Quiet,
            align: Align::Left,
            plate: true,
        });
    }
}

/// A box with a name in it; of what is applied now it is dark, in a frame.
fn named(scene: &mut Scene, spot: &Spot, name: &str, is_now: bool) {
    let area = spot.area();
    let (ground, ink) = match is_now {
        true => (Ink::Text, Ink::Paper),
        false => (Ink::Paper, Ink::Text),
    };
    if is_now {
        frame(scene, area);
    }
    scene.fill_box(area, ground);
    scene.outline_box(area, Stroke::solid(Ink::Text, 1.5));
    scene.label(Label {
        at: spot.centre,
        text: name.to_owned(),
        size: SIZE,
        bold: true,
        ink,
        align: Align::Centre,
        plate: false,
    });
}

/// A circle, or a triangle for what is beyond the axis: open, or filled on a chain; what is applied now is filled and in a frame.
fn unnamed(scene: &mut Scene, spot: &Spot, is_now: bool, on_chain: bool) {
    if is_now {
        frame(scene, spot.area());
    }
    let is_open = !is_now && !on_chain;
    mark(scene, spot.centre, spot.side, is_open);
}

/// The mark of what has no name.
pub(super) fn mark(scene: &mut Scene, centre: Point, side: Side, is_open: bool) {
    let outwards = match side {
        Side::On => {
            scene.disc(centre, RADIUS, Ink::Text);
            if is_open {
                scene.disc(centre, RADIUS - 1.5, Ink::Paper);
            }
            return;
        }
        Side::Before => -1.0,
        Side::After => 1.0,
    };
    let corner = |x: f64, y: f64| at(centre.x + outwards * x, centre.y + y);
    let points = vec![
        corner(RADIUS + 1.0, 0.0),
        corner(-RADIUS, -RADIUS),
        corner(-RADIUS, RADIUS),
        corner(RADIUS + 1.0, 0.0),
    ];
    scene.fill(points.clone(), if is_open { Ink::Paper } else { Ink::Text });
    scene.path(points, Stroke::solid(Ink::Text, 1.5));
}

/// The frame of what is applied now.
pub(super) fn frame(scene: &mut Scene, area: Bounds) {
    let outer = Bounds {
        left: area.left - FRAME,
        top: area.top - FRAME,
        width: area.width + 2.0 * FRAME,
        height: area.height + 2.0 * FRAME,
    };
    scene.fill_box(outer, Ink::Paper);
    scene.outline_box(outer, Stroke::solid(Ink::Text, 1.5));
}

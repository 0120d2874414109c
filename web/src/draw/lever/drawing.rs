//! The marks of the diagram, from back to front.

use levertrain_core::Body;

use super::geometry::{Bar, Diagram, LETTERED, Node};
use super::key;
use super::labels::Lettering;
use super::marks::{self, Look};
use crate::draw::scene::{Dash, Ink, Point, Scene, Stroke, at};
use crate::motion::live::Motion;

const BAR: f64 = 4.0;
/// Clear ground around a node: lines that pass behind it stop short of it.
const CLEARANCE: f64 = 4.0;

/// Draws a diagram.
pub(super) fn draw(diagram: &Diagram<'_>) -> Scene {
    let mut scene = Scene::new(diagram.size.0, diagram.size.1);
    grid(&mut scene, diagram);
    highlight(&mut scene, diagram);
    links(&mut scene, diagram);
    for lever in &diagram.levers {
        bar(&mut scene, lever);
    }
    for lever in &diagram.levers {
        ghost_bar(&mut scene, lever);
    }
    for node in diagram.nodes() {
        let single = (node.roles_text.is_none()).then(|| node.roles[0].letter());
        Look::of(node).draw(&mut scene, node.at, node.radius, single);
        if node.motion == Motion::Held {
            marks::ground(&mut scene, diagram.foot(node));
        }
    }
    let lettering = Lettering::of(diagram);
    for [from, to] in lettering.leaders {
        scene.line(from, to, Stroke::solid(Ink::Quiet, 1.0));
    }
    for label in lettering.labels {
        scene.label(label);
    }
    if diagram.has_key {
        key::draw(&mut scene, diagram.stage, diagram.live.powers.is_some());
    }
    scene
}

/// The grid, the line of standstill and that of the input.
pub(super) fn grid(scene: &mut Scene, diagram: &Diagram<'_>) {
    let (left, right) = diagram.sides();
    let mut level = |y: f64, stroke: Stroke| scene.line(at(left, y), at(right, y), stroke);
    for tick in diagram.axis.ticks(left).1 {
        level(tick.y, Stroke::solid(Ink::Guide, 1.0));
    }
    let (zero, input) = (diagram.axis.y(0.0), diagram.axis.y(1.0));
    level(zero, Stroke::solid(Ink::Text, 1.5));
    if diagram.has_input_line {
        level(input, Stroke::broken(Ink::Text, 1.25, Dash::Dashed));
    }
}

/// A glow behind what is pointed at.
fn highlight(scene: &mut Scene, diagram: &Diagram<'_>) {
    for link in &diagram.links {
        if diagram.live.is_lit(Body::Shaft(link.shaft)) {
            let (first, last) = link.reach();
            scene.line(first, last, Stroke::solid(Ink::Lit, marks::LINK + 6.0));
        }
    }
    for node in diagram.nodes().filter(|node| node.lit) {
        let reach = Look::of(node).reach(node.radius);
        scene.disc(node.at, reach + 5.0, Ink::Lit);
    }
}

/// Ties between levers. Where one passes a node that it does not belong to it goes behind it,
/// with a gap on either side.
fn links(scene: &mut Scene, diagram: &Diagram<'_>) {
    let stroke = |shaft: usize| diagram.live.stroke(Body::Shaft(shaft), marks::LINK);
    for link in &diagram.links {
        let (first, last) = link.reach();
        scene.line(first, last, stroke(link.shaft));
    }
    let passed = |node: &&Node| {
        diagram.links.iter().any(|link| {
            let (first, last) = link.reach();
            let within = first.x < node.at.x && node.at.x < last.x;
            let near = (first.y - node.at.y).abs() < node.radius + CLEARANCE;
            within && near && !node.bodies.contains(&Body::Shaft(link.shaft))
        })
    };
    for node in diagram.nodes().filter(passed) {
        let reach = Look::of(node).reach(node.radius);
        let clear = if node.lit { Ink::Lit } else { Ink::Paper };
        scene.disc(node.at, reach + CLEARANCE, clear);
        // Its own ties reach it across the clear ground.
        for link in &diagram.links {
            if node.bodies.contains(&Body::Shaft(link.shaft)) {
                let (first, last) = link.reach();
                let reach = reach + CLEARANCE;
                let from = at((node.at.x - reach).max(first.x), node.at.y);
                let to = at((node.at.x + reach).min(last.x), node.at.y);
                scene.line(from, to, stroke(link.shaft));
            }
        }
    }
}

fn bar(scene: &mut Scene, lever: &Bar) {
    let stroke = if lever.is_free() {
        Stroke::broken(Ink::Free, BAR - 1.0, Dash::Dashed)
    } else {
        Stroke::solid(Ink::Text, BAR)
    };
    let points: Vec<Point> = lever.nodes.iter().map(|node| node.at).collect();
    scene.path(points, stroke);
}

fn ghost_bar(scene: &mut Scene, lever: &Bar) {
    let points: Vec<Point> = lever.ghosts.iter().map(|ghost| ghost.at).collect();
    if points.len() > 1 {
        let stroke = Stroke::broken(Ink::Quiet, 2.0, Dash::Dashed);
        scene.path(points.clone(), stroke);
    }
    for point in points {
        marks::ghost(scene, point);
    }
}

impl Diagram<'_> {
    /// Where the ground sign of a held node stands: under it, on the line of standstill.
    pub(super) fn foot(&self, node: &Node) -> Point {
        let reach = Look::of(node).reach(node.radius).max(LETTERED * 0.8);
        at(node.at.x, self.axis.y(0.0) + reach)
    }
}

//! The levers of another instant, pinned to compare with, behind those of this one.
//!
//! They are hollow: two thin lines with diamonds for nodes, as nothing else is drawn.

use levertrain_core::{Body, LeverNode, TrainLever};

use super::drawing;
use super::geometry::{Bar, Diagram};
use crate::draw::names::cut;
use crate::draw::scene::{Align, Ink, Label, Point, Scene, Stroke, at};
use crate::draw::text;
use crate::motion::live::{Live, Motion};

/// Height of the line under the key that names what is pinned, in CSS pixels.
pub const LEGEND: f64 = 20.0;

/// Distance of the two lines from the middle: they show beside a lever that lies on them.
const HALF: f64 = 3.0;
/// From the middle of a diamond to its tips.
const NODE: f64 = 7.0;
const SIZE: f64 = 12.0;
/// Where the words of the legend begin, and what stays free after them.
const WORDS: f64 = 56.0;
const MARGIN: f64 = 8.0;

/// An instant with the speeds of another in reach of its axis.
pub(super) fn reaching<'a>(live: &Live<'a>, pinned: &Live<'_>) -> Live<'a> {
    let mut live = live.clone();
    for (&speed, &motion) in pinned.speeds.iter().zip(&pinned.motions) {
        if motion != Motion::Free {
            live.reach.take(speed);
        }
    }
    live
}

/// Puts the levers that are determined between the grid and what stands on it, each behind that of the set with its id, or of the set in its
/// place where the trains have no set in common.
pub(super) fn put_behind(
    scene: &mut Scene,
    diagram: &Diagram<'_>,
    pinned: &Live<'_>,
    merged: bool,
) {
    let mut ground = Scene::new(scene.width, scene.height);
    drawing::grid(&mut ground, diagram);
    let after_grid = ground.marks.len();
    let mut levers = Scene::new(scene.width, scene.height);
    behind(&mut levers, diagram, pinned, merged);
    scene.marks.splice(after_grid..after_grid, levers.marks);
}

fn behind(scene: &mut Scene, diagram: &Diagram<'_>, pinned: &Live<'_>, merged: bool) {
    let levers = match merged {
        true => TrainLever::merged(pinned.train),
        false => TrainLever::separate(pinned.train),
    };
    for bar in &diagram.levers {
        let twins = twins(bar, diagram.live, pinned);
        let own = levers.iter().find(|lever| {
            lever.couplings.len() == twins.len()
                && lever.couplings.iter().all(|index| twins.contains(index))
        });
        let Some(lever) = own else { continue };
        let is_free = |node: &LeverNode| pinned.motion(node.body) == Motion::Free;
        if !lever.nodes.iter().any(is_free) {
            draw(scene, &points(diagram, bar, lever, pinned));
        }
    }
}

/// The pinned couplings that those of a lever are compared with.
fn twins(bar: &Bar, live: &Live<'_>, pinned: &Live<'_>) -> Vec<usize> {
    let ids = |live: &Live<'_>| {
        let couplings = live.train.scenario().couplings.iter();
        let ids = couplings.map(|coupling| coupling.facts().id().to_owned());
        ids.collect::<Vec<_>>()
    };
    let (own, others) = (ids(live), ids(pinned));
    let related = own.iter().any(|id| others.contains(id));
    let twin = |&index: &usize| match related {
        true => others.iter().position(|id| *id == own[index]),
        false => Some(index),
    };
    bar.couplings.iter().filter_map(twin).collect()
}

fn points(diagram: &Diagram<'_>, bar: &Bar, lever: &TrainLever, pinned: &Live<'_>) -> Vec<Point> {
    let (left, right) = bar.span;
    let point = |node: &LeverNode| {
        let speed = match node.body {
            Body::Housing => 0.0,
            Body::Shaft(shaft) => pinned.speeds[shaft],
        };
        let x = left + node.place.to_f64() * (right - left);
        at(x, diagram.axis.y(speed))
    };
    lever.nodes.iter().map(point).collect()
}

fn draw(scene: &mut Scene, points: &[Point]) {
    let stroke = Stroke::solid(Ink::Quiet, 1.0);
    if let [first, .., last] = points {
        let (dx, dy) = (last.x - first.x, last.y - first.y);
        let length = dx.hypot(dy).max(1.0);
        let (x, y) = (-dy / length * HALF, dx / length * HALF);
        for side in [-1.0, 1.0] {
            let beside = |point: &Point| at(point.x + side * x, point.y + side * y);
            scene.line(beside(first), beside(last), stroke);
        }
    }
    for point in points {
        let tips = [
            (0.0, -NODE),
            (NODE, 0.0),
            (0.0, NODE),
            (-NODE, 0.0),
            (0.0, -NODE),
        ];
        let tips = tips.map(|(x, y)| at(point.x + x, point.y + y)).to_vec();
        scene.fill(tips.clone(), Ink::Paper);
        scene.path(tips, stroke);
    }
}

/// Names what is pinned in a line of its own at the foot.
pub(super) fn legend(scene: &mut Scene, words: &str) {
    let y = scene.height + LEGEND / 2.0 - 2.0;
    scene.height += LEGEND;
    draw(scene, &[at(MARGIN + NODE, y), at(WORDS - MARGIN - NODE, y)]);
    let room = scene.width - WORDS - MARGIN;
    let mut shown = words.to_owned();
    let mut kept = shown.clone();
    while text::width(&shown, SIZE, false) > room && kept.pop().is_some() {
        shown = cut(&kept);
    }
    scene.label(Label {
        at: at(WORDS, y),
        text: shown,
        size: SIZE,
        bold: false,
        ink: Ink::Text,
        align: Align::Left,
        plate: false,
    });
}

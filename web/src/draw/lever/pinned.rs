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
/// What covering one CSS pixel of a lever or a node by a label costs.
const OVER_LEVER: f64 = 0.2;
const OVER_NODE: f64 = 1.5;
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

/// The nodes of the levers that are determined, each lever in the place of the set with its id, or of the
/// set that stands where it does in its train where the trains have no set in common.
pub(super) fn levers(diagram: &Diagram<'_>, pinned: &Live<'_>, merged: bool) -> Vec<Vec<Point>> {
    let levers = match merged {
        true => TrainLever::merged(pinned.train),
        false => TrainLever::separate(pinned.train),
    };
    let is_free = |node: &LeverNode| pinned.motion(node.body) == Motion::Free;
    let own = |bar: &Bar| {
        let twins = twins(bar, diagram.live, pinned);
        let lever = levers.iter().find(|lever| {
            lever.couplings.len() == twins.len()
                && lever.couplings.iter().all(|index| twins.contains(index))
        })?;
        (!lever.nodes.iter().any(is_free)).then(|| points(diagram, bar, lever, pinned))
    };
    diagram.levers.iter().filter_map(own).collect()
}

/// What labels had better not cover: the levers, and above all their nodes.
pub(super) fn lines(levers: &[Vec<Point>]) -> Vec<(Point, Point, f64)> {
    let mut lines = Vec::new();
    for points in levers {
        if let [first, .., last] = points[..] {
            lines.push((first, last, OVER_LEVER));
        }
        let node = |&Point { x, y }: &Point| (at(x, y - NODE), at(x, y + NODE), OVER_NODE);
        lines.extend(points.iter().map(node));
    }
    lines
}

/// Puts levers between the grid and what stands on it.
pub(super) fn put_behind(scene: &mut Scene, diagram: &Diagram<'_>, levers: &[Vec<Point>]) {
    let mut ground = Scene::new(scene.width, scene.height);
    drawing::grid(&mut ground, diagram);
    let after_grid = ground.marks.len();
    let mut behind = Scene::new(scene.width, scene.height);
    for points in levers {
        draw(&mut behind, points);
    }
    scene.marks.splice(after_grid..after_grid, behind.marks);
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

#[cfg(test)]
mod tests {
    use levertrain_core::ElementSet;

    use super::*;
    use crate::document::session::Session;
    use crate::draw::lever::{scene_over, scene_under_section, shaft_at, shaft_at_over};
    use crate::draw::scene::Mark;

    const FIRST: &str = include_str!("../../../../scenarios/04-six-speed-three-sets.json");
    const OTHER: &str = include_str!("../../../../scenarios/09-six-speed-front-set.json");

    fn open(text: &str, range: Option<usize>) -> Session {
        let mut session = Session::open(text).unwrap_or_else(|problems| panic!("{problems:?}"));
        let applied = range.map_or(ElementSet::NONE, |range| session.train().range(range));
        session.apply(applied);
        session.settle();
        session
    }

    /// The diamonds, each by its middle.
    fn diamonds(scene: &Scene) -> Vec<Point> {
        let marks = scene.marks.iter().filter_map(|mark| match mark {
            Mark::Fill { points, ink } if *ink == Ink::Paper && points.len() == 5 => Some(points),
            _ => None,
        });
        let middles = marks.map(|tips| at(tips[0].x, tips[0].y + NODE));
        middles.collect()
    }

    fn over(session: &Session, pinned: &Session) -> (Scene, Scene) {
        let (stage, live) = (session.stage(), session.live());
        let alone = scene_under_section(&live, &stage, false);
        let pinned = pinned.live();
        let legend = "Pinned: as long as can be, ".repeat(20);
        (
            alone,
            scene_over(&live, &stage, false, false, (&pinned, &legend)),
        )
    }

    #[test]
    fn a_pinned_range_stands_behind_at_its_own_speeds() {
        let (now, pinned) = (open(FIRST, Some(1)), open(FIRST, Some(0)));
        let (alone, both) = over(&now, &pinned);
        // Three members in each of three sets, and two in the legend.
        let middles = diamonds(&both);
        assert_eq!(middles.len(), 11, "{middles:?}");
        assert_eq!(both.height, alone.height + LEGEND);
        // Two lines, two diamonds, and words.
        const LEGEND_MARKS: usize = 2 + 2 * 2 + 1;
        let ours = both.marks.iter().rev().skip(LEGEND_MARKS);
        let in_front = alone.marks.iter().rev().zip(ours);
        let in_front = in_front.take_while(|(one, other)| one == other).count();
        assert!(in_front > alone.marks.len() / 2, "{in_front} in front");
        for label in both.labels() {
            let area = label.bounds();
            let covered = middles.iter().find(|middle| {
                (area.left..area.left + area.width).contains(&middle.x)
                    && (area.top..area.top + area.height).contains(&middle.y)
            });
            // The letter of a member stands in front where it turns as fast.
            assert!(covered.is_none() || label.text.len() == 1, "{label:?}");
        }
        // By itself the same train reads on its own levers.
        let own = diamonds(&over(&pinned, &pinned).1);
        assert_eq!(own, middles);
    }

    #[test]
    fn another_train_stands_set_by_set_and_a_free_one_not_at_all() {
        let now = open(FIRST, Some(1));
        // A set of three members and one of four.
        let (_, both) = over(&now, &open(OTHER, Some(0)));
        assert_eq!(diamonds(&both).len(), 3 + 4 + 2);
        let (_, both) = over(&now, &open(FIRST, None));
        assert!(diamonds(&both).len() < 3 + 3 + 2);
    }

    #[test]
    fn what_is_pinned_stretches_the_axis_and_what_is_pointed_at_follows() {
        let session = open(FIRST, Some(1));
        let (stage, live) = (session.stage(), session.live());
        let mut fast = live.clone();
        fast.speeds[0] = 9.0;
        let stretched = reaching(&live, &fast);
        let diagram = Diagram::of(&stretched, &stage, false);
        let output = live.train.output();
        let node = diagram.nodes().find(|node| node.output);
        let place = node.map_or(at(0.0, 0.0), |node| node.at);
        let found = shaft_at_over(&live, &stage, false, &fast, place);
        assert_eq!(found, Some(output));
        assert_ne!(shaft_at(&live, &stage, false, place), found);
    }

    #[test]
    fn a_long_legend_is_cut_at_the_edge() {
        let now = open(FIRST, Some(1));
        let (_, both) = over(&now, &now);
        let ends = both.labels().map(|label| label.bounds());
        assert!(
            ends.into_iter()
                .all(|area| area.left + area.width <= both.width)
        );
        assert!(both.labels().any(|label| label.text.ends_with('…')));
    }
}

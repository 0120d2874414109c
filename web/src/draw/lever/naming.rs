//! Naming every shaft where there is little room: in large letters.

use super::arranging::arrange;
use super::labels::{Naming, Placed, Subject};
use super::placing::{Board, length_inside};
use super::saying::{Line, Saying, VALUE_SIZE, halves};
use crate::draw::scene::{Bounds, Point};

/// Names every shaft, beside its own node.
pub(super) const ALL: Naming = Naming {
    rest: name_the_rest,
    weigh,
    leads_from: 7.0,
};

/// How much nearer to its own node than to any other a label should be that no line leads from, and how far from
/// all others one that a line leads from, in CSS pixels.
const PLAIN: f64 = 8.0;
const APART: f64 = 5.0;

/// What a CSS pixel less than that costs, and lying on a line to another label.
const MISREAD: f64 = 4.0;
const ON_LEADER: f64 = 40.0;

/// What a place costs where somebody could take a label for that of another node, or where it lies on a line to
/// another label.
fn weigh(
    board: &Board,
    centre: Point,
    area: Bounds,
    leader: Option<[Point; 2]>,
    own: Option<usize>,
) -> f64 {
    let is_own = |node: &&Bounds| (node.middle().x - centre.x).abs() < 0.5;
    let near = board.nodes.iter().find(is_own);
    let near = near.map_or(0.0, |node| gap(node, &area));
    let wanted = if leader.is_some() {
        APART
    } else {
        near + PLAIN
    };
    let others = board.nodes.iter().filter(|node| !is_own(node));
    let short = others.map(|node| (wanted - gap(node, &area)).max(0.0));
    let lies_on = |&&(index, [from, to]): &&(usize, [Point; 2])| {
        Some(index) != own && length_inside(from, to, area) > 1.0
    };
    let crossed = board.leaders.iter().filter(lies_on).count();
    // A line that runs through a node or a word costs more than one over a lever.
    let runs =
        |node: &&Bounds| leader.is_some_and(|[from, to]| length_inside(from, to, **node) > 1.0);
    let runs = board
        .nodes
        .iter()
        .filter(|node| !is_own(node))
        .filter(runs)
        .count();
    ON_LEADER * runs as f64 + MISREAD * short.sum::<f64>() + ON_LEADER * crossed as f64
}

/// How far two boxes are apart.
pub(super) fn gap(one: &Bounds, other: &Bounds) -> f64 {
    let apart = |(low, length): (f64, f64), (other, other_length): (f64, f64)| {
        (other - low - length)
            .max(low - other - other_length)
            .max(0.0)
    };
    let across = apart((one.left, one.width), (other.left, other.width));
    let down = apart((one.top, one.height), (other.top, other.height));
    across.hypot(down)
}

/// Names the shafts that have no name yet, in fewer words or more lines if need be, wherever that is clearest.
fn name_the_rest(subjects: &mut [Subject], all: &mut [Option<Placed>], board: &mut Board) {
    for subject in &mut *subjects {
        subject.sayings.extend(alone(&subject.sayings));
        let bare: Vec<Saying> = subject.sayings.iter().filter_map(bare).collect();
        subject.sayings.extend(bare);
        let narrow: Vec<Saying> = subject.sayings.iter().filter_map(narrower).collect();
        let narrowest: Vec<Saying> = narrow.iter().filter_map(narrower).collect();
        subject.sayings.extend(narrow);
        subject.sayings.extend(narrowest);
    }
    arrange(subjects, all, board);
}

/// The name alone, of a node of which more is said in a line under it.
fn alone(sayings: &[Saying]) -> Option<Saying> {
    let [first, second, ..] = sayings else {
        return None;
    };
    let under = first.names && second.names && second.lines.len() == first.lines.len() + 1;
    let (_, lines) = second.lines.split_last().filter(|_| under)?;
    Some(Saying {
        lines: lines.to_vec(),
        names: true,
    })
}

/// The same without its members, which stand before its speed where no letter shows them.
fn bare(saying: &Saying) -> Option<Saying> {
    let is_speed = |line: &Line| line.size == VALUE_SIZE;
    let (members, rest) = saying.lines.split_first()?;
    let has_members = saying.names && !is_speed(members) && is_speed(rest.first()?);
    has_members.then(|| Saying {
        lines: rest.to_vec(),
        names: true,
    })
}

/// The same in more lines, where a name has several words.
fn narrower(saying: &Saying) -> Option<Saying> {
    if !saying.names {
        return None;
    }
    let mut lines = Vec::new();
    for line in &saying.lines {
        match halves(&line.text) {
            Some(halves) => lines.extend(halves.map(|text| Line {
                text: text.to_owned(),
                ..line.clone()
            })),
            None => lines.push(line.clone()),
        }
    }
    let names = true;
    (lines.len() > saying.lines.len()).then_some(Saying { lines, names })
}

//! What the diagram says, and where: lettering of the axis, headings, and the labels of nodes.

use levertrain_core::Body;
use levertrain_core::short_sort::sort_short_by_key;

use super::axis::TICK_SIZE;
use super::geometry::{Diagram, HEADING};
use super::key;
use super::marks::{self, Look};
use super::placing::{Board, Size, Spot, Weigh};
use super::saying::{self, Line, Saying};
use crate::draw::scene::{Align, Bounds, Ink, Label, Point, at};
use crate::draw::text;
use crate::motion::live::Motion;

/// What covering a CSS pixel of these costs a label. Levers and ties are covered where there is no
/// other room at all.
const OVER_BAR: f64 = 20.0;
const OVER_LINK: f64 = 20.0;
const OVER_GHOST: f64 = 0.3;
const OVER_INPUT: f64 = 0.12;
const OVER_ZERO: f64 = 0.5;

/// What is kept free around a node that is turned by hand, in CSS pixels.
const ARROWS: f64 = 8.0;

/// Clear space between the lines of a label, in CSS pixels.
const LEADING: f64 = 0.5;

/// How much worse a place may be for the sake of saying more.
const WORTH_SAYING: f64 = 80.0;

/// How often labels are placed, each time with a shaft first whose name found no room, unless more nodes than these have no
/// name: then there is room for few, and every frame of such a train takes long as it is.
const ANEW: usize = 7;
const FEW: usize = 6;

/// Every text of the diagram but the letters in the nodes and the key.
pub(super) struct Lettering {
    /// The texts.
    pub labels: Vec<Label>,
    /// Lines from labels to what they belong to.
    pub leaders: Vec<[Point; 2]>,
}

/// What is looked at beyond the usual where every shaft must have a name that nobody takes for another's.
pub(super) struct Naming {
    /// Does more once all have their places.
    pub rest: fn(&mut [Subject], &mut [Option<Placed>], &mut Board),
    /// What else a place costs.
    pub weigh: Weigh,
    /// From this distance on a line leads from a label to its node.
    pub leads_from: f64,
}

/// A thing to be labelled: where it is, and what to say of it, the fullest first.
pub(super) struct Subject {
    pub centre: Point,
    pub reach: f64,
    pub sayings: Vec<Saying>,
    /// How many of the last sayings will do if need be.
    essential: usize,
    /// What a saying that names it names.
    pub bodies: Vec<Body>,
}

/// A label that has its place.
#[derive(Clone, Copy)]
pub(super) struct Placed {
    pub spot: Spot,
    pub saying: usize,
    pub own: usize,
}

impl Lettering {
    /// Letters a diagram. No two texts overlap, and none lies on a node.
    pub(super) fn of(diagram: &Diagram<'_>) -> Self {
        let (labels, places) = places(diagram);
        let mut lettering = Self {
            labels,
            leaders: Vec::new(),
        };
        for (subject, placed) in places {
            if let Some(placed) = placed {
                lettering.leaders.extend(placed.spot.leader);
                let lines = &subject.sayings[placed.saying].lines;
                lettering.labels.extend(set(lines, placed.spot));
            }
        }
        lettering
    }
}

/// The texts that belong to no node, and where the others have their places.
// Inline: large letters find other places, which is no reason to part it from the drawing of a first view.
#[inline(always)]
pub(super) fn places(
    diagram: &Diagram<'_>,
) -> (Vec<Label>, impl Iterator<Item = (Subject, Option<Placed>)>) {
    let mut board = Board::new(Bounds {
        left: 2.0,
        top: 1.0,
        width: diagram.size.0 - 4.0,
        height: diagram.size.1 - 1.0 - key::height(diagram.stage, diagram.live.powers.is_some()),
    });
    for node in diagram.nodes() {
        // Turned by hand, a node has arrows over and under it.
        let arrows = if diagram.live.by_hand { ARROWS } else { 0.0 };
        let reach = Look::of(node).reach(node.radius) + arrows;
        let square = marks::square(node.at, reach);
        board.take(square);
        if diagram.naming.is_some() {
            board.nodes.push(square);
        }
        if node.motion == Motion::Held {
            board.take(marks::ground_area(diagram.foot(node)));
        }
    }
    if let Some(naming) = &diagram.naming {
        board.weigh = Some(naming.weigh);
        board.leads_from = naming.leads_from;
    }
    let mut labels = Vec::new();
    for label in headings(diagram).into_iter().chain(ticks(diagram)) {
        if board.is_free(label.bounds(), None) {
            board.take(label.bounds());
            labels.push(label);
        }
    }
    mark_lines(diagram, &mut board);
    if diagram.has_input_line {
        labels.extend(input_label(diagram, &mut board));
    }
    let mut subjects = subjects(diagram);
    let mut order: Vec<usize> = (0..subjects.len()).collect();
    let (mut all, mut fewest) = (Vec::new(), usize::MAX);
    let fixed = board.count();
    for _ in 0..ANEW {
        board.keep(fixed);
        let (mut places, unnamed, last) = place(&subjects, &order, &mut board);
        if let Some(naming) = &diagram.naming {
            (naming.rest)(&mut subjects, &mut places, &mut board);
        }
        if unnamed < fewest {
            (all, fewest) = (places, unnamed);
        }
        if !(1..=FEW).contains(&unnamed) || diagram.naming.is_some() {
            break;
        }
        order.swap(0, last);
    }
    (labels, subjects.into_iter().zip(all))
}

/// Places what must be said of every subject first, in this order, then says more where there is room. Also tells how many stand
/// for a shaft that no label names, and the place of the last of them in the order.
fn place(
    subjects: &[Subject],
    order: &[usize],
    board: &mut Board,
) -> (Vec<Option<Placed>>, usize, usize) {
    let mut all: Vec<Option<Placed>> = vec![None; subjects.len()];
    for &index in order {
        let subject = &subjects[index];
        let first = subject.sayings.len() - subject.essential;
        all[index] = (first..subject.sayings.len()).find_map(|saying| {
            let size = size(&subject.sayings[saying].lines);
            let spot = board.best(subject.centre, subject.reach, size, None)?;
            let own = board.take(spot.area);
            Some(Placed { spot, saying, own })
        });
    }
    let mut named: Vec<Body> = Vec::new();
    for &index in order {
        let subject = &subjects[index];
        let Some(placed) = &mut all[index] else {
            continue;
        };
        let is_news = subject.bodies.iter().any(|body| !named.contains(body));
        for saying in 0..placed.saying {
            if subject.sayings[saying].names && !is_news {
                continue;
            }
            let size = size(&subject.sayings[saying].lines);
            let own = Some(placed.own);
            let spot = board.best(subject.centre, subject.reach, size, own);
            if let Some(spot) = spot.filter(|spot| spot.cost <= placed.spot.cost + WORTH_SAYING) {
                board.replace(placed.own, spot.area);
                (placed.spot, placed.saying) = (spot, saying);
                if subject.sayings[saying].names {
                    named.extend(&subject.bodies);
                }
                break;
            }
        }
    }
    let (mut unnamed, mut last) = (0, 0);
    for (at, &index) in order.iter().enumerate() {
        let mut bodies = subjects[index].bodies.iter();
        if bodies.any(|body| !named.contains(body)) {
            (unnamed, last) = (unnamed + 1, at);
        }
    }
    (all, unnamed, last)
}

/// The nodes in order of importance, then those of the change being tried.
fn subjects(diagram: &Diagram<'_>) -> Vec<Subject> {
    let mut nodes: Vec<_> = diagram.nodes().collect();
    sort_short_by_key(&mut nodes, |node| match node.motion {
        Motion::Fighting => 0,
        _ if node.output => 1,
        _ if node.input => 2,
        Motion::Free | Motion::Forward | Motion::Backward => 3,
        Motion::Held => 4,
    });
    let nodes = nodes.into_iter().map(|node| Subject {
        centre: node.at,
        reach: Look::of(node).reach(node.radius),
        sayings: saying::of_node(diagram, node),
        essential: if node.roles_text.is_some() { 2 } else { 1 },
        bodies: node.bodies.clone(),
    });
    let ghosts = diagram.levers.iter().flat_map(|lever| {
        let farthest = lever.ghosts.iter().map(|ghost| ghost.moved);
        let farthest = farthest.fold(0.0, f64::max);
        let mut unmarked = true;
        lever
            .ghosts
            .iter()
            .filter(|ghost| ghost.differs())
            .map(move |ghost| Subject {
                centre: ghost.at,
                reach: marks::GHOST,
                sayings: saying::of_ghost(
                    diagram,
                    ghost,
                    ghost.moved == farthest && std::mem::take(&mut unmarked),
                ),
                essential: 1,
                bodies: Vec::new(),
            })
    });
    nodes.chain(ghosts).collect()
}

/// Sets lines one under the other into a place.
fn set(lines: &[Line], spot: Spot) -> Vec<Label> {
    let area = spot.area;
    let x = match spot.align {
        Align::Left => area.left,
        Align::Centre => area.left + area.width / 2.0,
        Align::Right => area.left + area.width,
    };
    let mut top = area.top;
    lines
        .iter()
        .map(|line| {
            let height = line.size * text::LINE;
            let y = top + height / 2.0;
            top += height + LEADING;
            Label {
                at: at(x, y),
                text: line.text.clone(),
                size: line.size,
                bold: line.bold,
                ink: line.ink,
                align: spot.align,
                plate: true,
            }
        })
        .collect()
}

pub(super) fn size(lines: &[Line]) -> Size {
    let (mut width, mut height, mut nought) = (0.0_f64, -LEADING, f64::NAN);
    for line in lines {
        let line_height = line.size * text::LINE;
        height += LEADING;
        if line.text == "0" {
            nought = height + line_height / 2.0;
        }
        height += line_height;
        width = width.max(text::width(&line.text, line.size, line.bold));
    }
    Size {
        width,
        height,
        nought,
    }
}

/// What labels had better not cover.
fn mark_lines(diagram: &Diagram<'_>, board: &mut Board) {
    for lever in &diagram.levers {
        let (first, last) = (&lever.nodes[0], &lever.nodes[lever.nodes.len() - 1]);
        board.avoid(first.at, last.at, OVER_BAR);
        if let (Some(first), Some(last)) = (lever.ghosts.first(), lever.ghosts.last()) {
            board.avoid(first.at, last.at, OVER_GHOST);
        }
    }
    for link in &diagram.links {
        let (first, last) = link.reach();
        board.avoid(first, last, OVER_LINK);
    }
    for &(from, to, cost) in &diagram.behind {
        board.avoid(from, to, cost);
    }
    board.standstill = diagram.axis.y(0.0);
    let (left, right) = diagram.sides();
    for (speed, cost) in [(0.0, OVER_ZERO), (1.0, OVER_INPUT)] {
        let y = diagram.axis.y(speed);
        board.avoid(at(left, y), at(right, y), cost);
    }
}

/// The names of the sets, over their levers.
fn headings(diagram: &Diagram<'_>) -> Vec<Label> {
    let heading = |(couplings, span): (&[usize], (f64, f64))| Label {
        at: at((span.0 + span.1) / 2.0, HEADING / 2.0),
        text: saying::heading(diagram.live.train, couplings),
        size: 13.0,
        bold: true,
        ink: Ink::Quiet,
        align: Align::Centre,
        plate: false,
    };
    let levers = diagram.levers.iter();
    levers
        .filter(|lever| diagram.names_sets || lever.couplings.len() > 1)
        .map(|lever| heading((&lever.couplings, lever.span)))
        .collect()
}

/// The numbers of the axis and what they are.
fn ticks(diagram: &Diagram<'_>) -> Vec<Label> {
    let right = diagram.sides().0 - 4.0;
    let label = |x: f64, y: f64, align: Align, text: String| Label {
        at: at(x, y),
        text,
        size: TICK_SIZE,
        bold: false,
        ink: Ink::Quiet,
        align,
        plate: false,
    };
    let (title, ticks) = diagram.axis.ticks(right - 3.0);
    let title = label(4.0, HEADING / 2.0, Align::Left, title.to_owned());
    let ticks = ticks.into_iter().map(|tick| {
        let label = label(right, tick.y, Align::Right, tick.text);
        if label.text == "0" {
            Label {
                bold: true,
                size: 14.0,
                ink: Ink::Text,
                ..label
            }
        } else {
            label
        }
    });
    std::iter::once(title).chain(ticks).collect()
}

/// The name of the input line, on it wherever there is room; it stays right if it can.
fn input_label(diagram: &Diagram<'_>, board: &mut Board) -> Option<Label> {
    const STEP: f64 = 8.0;
    /// What moving the label by a CSS pixel costs.
    const MOVED: f64 = 0.03;
    let (left, right) = diagram.sides();
    let y = diagram.axis.y(1.0);
    let label = Label {
        at: at(0.0, 0.0),
        text: saying::input_line(diagram),
        size: 12.5,
        bold: false,
        ink: Ink::Text,
        align: Align::Right,
        plate: true,
    };
    let size = label.bounds();
    let mut best: Option<(f64, Point)> = None;
    let mut x = right;
    while x > left {
        let moved = (right - x) * MOVED;
        if best.is_some_and(|(least, _)| least <= moved) {
            break;
        }
        for (side, habit) in [(-10.0, 0.0), (10.0, 1.0)] {
            let spot = at(x, y + side);
            let area = Bounds {
                left: size.left + spot.x,
                top: size.top + spot.y,
                ..size
            };
            let cost = habit + moved + board.covering(area);
            if board.is_free(area, None) && best.is_none_or(|(least, _)| cost < least) {
                best = Some((cost, spot));
            }
        }
        x -= STEP;
    }
    let (_, at) = best?;
    let label = Label { at, ..label };
    board.take(label.bounds());
    Some(label)
}

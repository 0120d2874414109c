//! Where everything stands: rows of named ranges, rows of all else, forwards above backwards.

use levertrain_core::swaps::Kind;

use super::View;
use super::axis::{Axis, HEIGHT, SIZE, Side};
use super::key;
use super::packing::{Room, stack};
use crate::draw::names::{self, isolated};
use crate::draw::scene::{Bounds, Point, at};
use crate::draw::text;

/// Widest a box with a name may be, in CSS pixels.
const WIDEST: f64 = 96.0;
/// Height of a box, and room in it beside the name.
pub(super) const BOX: f64 = 24.0;
const PADDING: f64 = 6.0;
/// Radius of a circle without a name.
pub(super) const RADIUS: f64 = 5.0;
/// Room between boxes of a row, between rows, and at the edges, in CSS pixels.
pub(super) const APART: f64 = 8.0;
const EDGE: f64 = 10.0;
/// Room at the edges for the frame of what is applied now.
const FRAME: f64 = 5.0;
/// How high the widest arcs are, in CSS pixels.
const ABOVE: f64 = 96.0;
const BELOW: f64 = 64.0;
/// The least height of an arc.
const LOWEST: f64 = 12.0;
/// Room for the word that says what is below it drives backwards.
pub(super) const HEADING: f64 = 26.0;

/// A node in its place.
#[derive(Debug, Clone)]
pub(super) struct Spot {
    pub node: usize,
    pub centre: Point,
    /// Its name, as it is written in its box; none for a circle.
    pub name: Option<String>,
    pub width: f64,
    /// Whether its ratio is beyond an end of the axis, where it stands then.
    pub side: Side,
}

impl Spot {
    /// The box of a name, or that round a circle.
    pub fn area(&self) -> Bounds {
        let height = if self.name.is_some() {
            BOX
        } else {
            2.0 * RADIUS
        };
        around(self.centre, self.width, height)
    }

    /// What can be pointed at, at least `reach` either way.
    pub fn reach(&self, reach: f64) -> Bounds {
        around(self.centre, self.width.max(reach), BOX.max(reach))
    }
}

fn around(centre: Point, width: f64, height: f64) -> Bounds {
    Bounds {
        left: centre.x - width / 2.0,
        top: centre.y - height / 2.0,
        width,
        height,
    }
}

/// A swap between two nodes that are shown, by their places among these.
#[derive(Debug, Clone, Copy)]
pub(super) struct Line {
    pub ends: [usize; 2],
    pub kind: Kind,
}

/// The whole arrangement.
#[derive(Debug)]
pub(super) struct Plan {
    pub height: f64,
    pub axis: Axis,
    /// In the order of the nodes.
    pub spots: Vec<Spot>,
    /// All single swaps between nodes that are shown, and the double ones between named ranges.
    pub lines: Vec<Line>,
    /// Round circles of one ratio that stand beside each other.
    pub blocks: Vec<Bounds>,
    arcs: Arcs,
    /// Top of the part that drives backwards, where there is one.
    pub backward: Option<f64>,
    /// Top of the key.
    pub key: f64,
}

impl Plan {
    pub fn of(view: &View<'_>, width: f64) -> Self {
        let nodes = view.graph.nodes();
        let shown = view.shown();
        let mut spots: Vec<Spot> = shown.iter().map(|&node| spot(view, node)).collect();
        let widest = spots.iter().map(|spot| spot.width.max(view.reach));
        let margin = EDGE.max(widest.fold(0.0, f64::max) / 2.0 + FRAME);
        let size = |node: usize| nodes[node].ratio.to_f64().abs();
        let inner = shown.iter().copied();
        let inner =
            inner.filter(|node| !nodes[*node].ranges.is_empty() || view.chain.contains(node));
        let inner: Vec<f64> = inner.map(size).collect();
        let all: Vec<f64> = shown.iter().map(|&node| size(node)).collect();
        let mut axis = Axis::of(&inner, &all, [margin, view.reach + APART], width);
        for spot in &mut spots {
            spot.side = axis.side(size(spot.node));
            spot.centre.x = match spot.side {
                Side::On => axis.x(size(spot.node)),
                Side::Before => view.reach / 2.0 + 2.0,
                Side::After => width - view.reach / 2.0 - 2.0,
            };
        }
        let lines = lines(view, &spots);
        let mut blocks = Vec::new();
        let arcs = Arcs::of(&spots);
        let (mut forward, mut reverse) = (Vec::new(), Vec::new());
        for (place, spot) in spots.iter().enumerate() {
            let part = if nodes[spot.node].is_forward() {
                &mut forward
            } else {
                &mut reverse
            };
            part.push(place);
        }
        let mut y = EDGE;
        let mut backward = None;
        for (part, is_reverse) in [(forward, false), (reverse, true)] {
            if part.is_empty() {
                continue;
            }
            if is_reverse {
                backward = Some(y);
                y += HEADING;
            }
            let room = Room {
                top: y,
                width,
                reach: view.reach,
            };
            y = stack(view, &mut spots, &part, &lines, &arcs, &room, &mut blocks);
        }
        axis.y = y;
        y += HEIGHT;
        let key = y;
        let beyond = spots.iter().any(|spot| spot.side != Side::On);
        let height = y + key::height(view, width, beyond);
        Self {
            height,
            axis,
            spots,
            lines,
            blocks,
            arcs,
            backward,
            key,
        }
    }

    /// Whether something is beyond the axis.
    pub fn has_beyond(&self) -> bool {
        self.spots.iter().any(|spot| spot.side != Side::On)
    }

    /// The part of the drawing that the faint lines of the axis go through.
    pub fn grid(&self) -> Bounds {
        Bounds {
            left: 0.0,
            top: EDGE / 2.0,
            width: 0.0,
            height: self.axis.y - EDGE / 2.0,
        }
    }

    /// The points of an arc from one spot to another, above their boxes or below; a straight line where one has no name, or they drive opposite
    /// ways, or stand one above the other.
    pub fn course(&self, line: &Line) -> Vec<Point> {
        let [one, other] = line.ends.map(|end| &self.spots[end]);
        let (from, to) = (one.centre, other.centre);
        if !is_arc(one, other) || self.parted(line) {
            return vec![from, to];
        }
        let is_above = line.kind.is_single();
        let side = if is_above { -1.0 } else { 1.0 };
        let edge = |spot: &Spot| at(spot.centre.x, spot.centre.y + side * BOX / 2.0);
        let (from, to) = (edge(one), edge(other));
        let outermost = if is_above {
            from.y.min(to.y)
        } else {
            from.y.max(to.y)
        };
        // Half-way a parabola is half-way to its middle point.
        let bulge =
            2.0 * (outermost + side * self.arcs.rise(one, other, is_above)) - (from.y + to.y) / 2.0;
        let middle = at((from.x + to.x) / 2.0, bulge);
        (0..=ARC)
            .map(|step| {
                let t = f64::from(step) / f64::from(ARC);
                let blend = |a: f64, b: f64, c: f64| {
                    (1.0 - t) * (1.0 - t) * a + 2.0 * t * (1.0 - t) * b + t * t * c
                };
                at(blend(from.x, middle.x, to.x), blend(from.y, middle.y, to.y))
            })
            .collect()
    }

    /// Whether a line leads from what drives forwards to what drives backwards.
    fn parted(&self, line: &Line) -> bool {
        let Some(top) = self.backward else {
            return false;
        };
        let [one, other] = line.ends.map(|end| self.spots[end].centre.y > top);
        one != other
    }
}

/// Pieces of an arc.
const ARC: u32 = 24;

/// How high arcs are: the further apart what they join, the higher.
#[derive(Debug, Clone, Copy)]
pub(super) struct Arcs {
    /// How far apart the outermost names are.
    span: f64,
}

impl Arcs {
    fn of(spots: &[Spot]) -> Self {
        let named = spots.iter().filter(|spot| spot.name.is_some());
        let (first, last) = named
            .fold((f64::INFINITY, f64::NEG_INFINITY), |(first, last), spot| {
                (first.min(spot.centre.x), last.max(spot.centre.x))
            });
        Self {
            span: (last - first).max(1.0),
        }
    }

    /// The height of an arc between two spots.
    pub fn rise(&self, one: &Spot, other: &Spot, is_above: bool) -> f64 {
        let highest = if is_above { ABOVE } else { BELOW };
        let across = (one.centre.x - other.centre.x).abs();
        LOWEST + (highest - LOWEST) * (across / self.span).min(1.0)
    }
}

/// Whether two spots are joined by an arc: both have names, and do not stand one above the other.
pub(super) fn is_arc(one: &Spot, other: &Spot) -> bool {
    let across = (one.centre.x - other.centre.x).abs();
    one.name.is_some() && other.name.is_some() && across >= LOWEST
}

/// A node that has no place yet.
fn spot(view: &View<'_>, node: usize) -> Spot {
    let scenario = view.train.scenario();
    let labels = view.graph.nodes()[node].ranges.iter();
    let labels: Vec<String> = labels
        .map(|&range| isolated(&scenario.ranges[range].label))
        .collect();
    let name = (!labels.is_empty()).then(|| shortened(&labels.join(", ")));
    let width = match &name {
        Some(name) => (text::width(name, SIZE, true) + 2.0 * PADDING).max(BOX),
        None => 2.0 * RADIUS,
    };
    Spot {
        node,
        centre: at(0.0, 0.0),
        name,
        width,
        side: Side::On,
    }
}

/// A name cut to what a box may hold.
fn shortened(name: &str) -> String {
    let most = WIDEST - 2.0 * PADDING;
    if text::width(name, SIZE, true) <= most {
        return name.to_owned();
    }
    let mut kept = name.to_owned();
    while !kept.is_empty() && text::width(&names::cut(&kept), SIZE, true) > most {
        kept.pop();
    }
    names::cut(&kept)
}

/// The swaps that are drawn.
fn lines(view: &View<'_>, spots: &[Spot]) -> Vec<Line> {
    let place = |node: usize| spots.binary_search_by_key(&node, |spot| spot.node).ok();
    let mut lines = Vec::new();
    for (from, spot) in spots.iter().enumerate() {
        let singles = view.graph.singles(spot.node);
        let singles = singles
            .into_iter()
            .filter_map(place)
            .filter(|&to| to > from);
        lines.extend(singles.map(|to| Line {
            ends: [from, to],
            kind: view.graph.swap(spot.node, spots[to].node).kind(),
        }));
    }
    let named: Vec<usize> = (0..spots.len())
        .filter(|&place| spots[place].name.is_some())
        .collect();
    for (index, &from) in named.iter().enumerate() {
        for &to in &named[index + 1..] {
            let kind = view.graph.swap(spots[from].node, spots[to].node).kind();
            let ways = [from, to].map(|place| view.graph.nodes()[spots[place].node].is_forward());
            if kind == Kind::Double && ways[0] == ways[1] {
                lines.push(Line {
                    ends: [from, to],
                    kind,
                });
            }
        }
    }
    lines
}

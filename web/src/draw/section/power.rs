//! Power on the half-section: how much flows through each piece of each shaft, and which way.
//!
//! A shaft's lines form a tree: its runs along the grid, with each of its gears as one node.
//! What the sets take out of it, what clutches and the two ends put in or take out is known;
//! through a step of the tree flows what everything beyond it takes.

use levertrain_core::short_sort::sort_short_by_key;

use levertrain_core::words::{Catalogue, number};
use levertrain_core::{Body, Train};

use super::grid::Node;
use super::outlines::stems;
use super::plan::{PackPlace, Plan};
use super::stage::Stage;
use crate::draw::scene::{Align, Bounds, Dash, Ink, Label, Point, Scene, Stroke, at};
use crate::motion::live::Live;
use crate::motion::powers::Powers;

/// Line width with no power, and what all of the input's power adds. Twice that still fits
/// between neighbouring shafts.
const THIN: f64 = 1.5;
const FULL: f64 = 5.5;
/// Power that lines do not grow beyond, in input powers.
const MOST: f64 = 2.0;
/// Width of the widest line.
pub(super) const WIDEST: f64 = THIN + FULL * MOST;
/// What is less than this many input powers is nothing: the rounding of a sum.
const NOTHING: f64 = 1e-9;
/// Least length of a line that an arrow head stands on, and between two on one line.
const ARROW_ROOM: f64 = 24.0;
const ARROWS_APART: f64 = 130.0;

/// A step of a shaft's run, and the power through it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Step {
    /// Where it begins.
    pub from: Node,
    /// Where it ends.
    pub to: Node,
    /// Power that flows from `from` to `to`, in input powers.
    pub flow: f64,
}

/// Where power enters a shaft (or, negative, leaves it).
pub(super) fn sources(
    plan: &Plan,
    train: &Train,
    powers: &Powers,
    shaft: usize,
) -> Vec<(Node, f64)> {
    let grid = &plan.grid;
    let is_this = |body: Body| body == Body::Shaft(shaft);
    let mut sources = Vec::new();
    for part in plan.parts.iter().filter(|part| is_this(part.body)) {
        let power = powers.members[part.coupling][part.member];
        // The nodes of a gear are all one.
        sources.extend(part.nodes(grid).first().map(|&node| (node, -power)));
    }
    for (element, place) in plan.packs.iter().enumerate() {
        let PackPlace::Clutch {
            column,
            row,
            flipped,
        } = *place
        else {
            continue;
        };
        let leads = [column, column + 2].map(|column| grid.node(column, row));
        let [first, second] = if flipped { [leads[1], leads[0]] } else { leads };
        let power = powers.elements[element];
        let ends = train.ends(element);
        sources.extend(is_this(ends[0]).then_some((first, -power)));
        sources.extend(is_this(ends[1]).then_some((second, power)));
    }
    sources.extend((shaft == train.input()).then_some((plan.ends[0], 1.0)));
    sources.extend((shaft == train.output()).then_some((plan.ends[1], -1.0)));
    sources
}

/// The steps of a shaft's runs with their power.
pub(super) fn steps(plan: &Plan, train: &Train, powers: &Powers, shaft: usize) -> Vec<Step> {
    // A node stands for itself or, on a gear, for its first node.
    let size = plan.grid.nodes();
    let mut joined: Vec<Node> = (0..size).collect();
    for part in &plan.parts {
        if part.body == Body::Shaft(shaft) {
            let gear = part.nodes(&plan.grid);
            gear.iter().for_each(|&node| joined[node] = gear[0]);
        }
    }
    let mut runs: Vec<(Node, Node)> = plan.runs[shaft]
        .iter()
        .map(|&(a, b)| (a.min(b), a.max(b)))
        .collect();
    sort_short_by_key(&mut runs, |&run| run);
    runs.dedup();
    let mut beside: Vec<Vec<(Node, usize)>> = vec![Vec::new(); size];
    for (index, &(a, b)) in runs.iter().enumerate() {
        let (a, b) = (joined[a], joined[b]);
        beside[a].push((b, index));
        beside[b].push((a, index));
    }
    let mut into = vec![0.0; size];
    for (node, power) in sources(plan, train, powers, shaft) {
        into[joined[node]] += power;
    }

    // Outwards from any node; then from the farthest back, each step carries what its far side
    // puts in.
    let mut flows = vec![0.0; runs.len()];
    let mut reached = vec![false; size];
    for root in (0..size).filter(|&node| !beside[node].is_empty()) {
        if reached[root] {
            continue;
        }
        reached[root] = true;
        let mut order: Vec<(Node, Node, usize)> = Vec::new();
        let mut open = vec![root];
        while let Some(node) = open.pop() {
            for &(next, run) in &beside[node] {
                if !reached[next] {
                    reached[next] = true;
                    order.push((node, next, run));
                    open.push(next);
                }
            }
        }
        for &(near, far, run) in order.iter().rev() {
            let power = into[far];
            into[near] += power;
            flows[run] = if joined[runs[run].0] == far {
                power
            } else {
                -power
            };
        }
    }
    let steps = runs.into_iter().zip(flows);
    steps
        .map(|((from, to), flow)| Step { from, to, flow })
        .collect()
}

/// A straight line of a shaft with one power all along.
#[derive(Debug, Clone, Copy, PartialEq)]
struct Line {
    from: Point,
    to: Point,
    /// Power from `from` to `to`.
    flow: f64,
}

/// The lines of a shaft: steps that continue one another with the same power, as one.
fn lines(stage: &Stage<'_>, train: &Train, powers: &Powers, shaft: usize) -> Vec<Line> {
    let plan = stage.plan();
    let mut steps = steps(plan, train, powers, shaft);
    // What a lead brings to a gear goes on along its stem.
    let stems = stems(stage).into_iter();
    let stems = stems.filter(|stem| stem.body == Body::Shaft(shaft));
    let stem_lines: Vec<Line> = stems
        .flat_map(|stem| {
            let into = |step: &Step| match stem.node {
                node if node == step.to => step.flow,
                node if node == step.from => -step.flow,
                _ => 0.0,
            };
            let flow: f64 = steps.iter().map(into).sum();
            let pieces: Vec<[Point; 2]> = stem.points.windows(2).map(|p| [p[0], p[1]]).collect();
            pieces
                .into_iter()
                .map(move |[from, to]| Line { from, to, flow })
        })
        .collect();
    // Along rows first, then along columns, so that what continues a step follows it.
    let grid = &plan.grid;
    sort_short_by_key(&mut steps, |step| {
        let upright = grid.column(step.from) == grid.column(step.to);
        let line = if upright {
            (grid.column(step.from), grid.row(step.from))
        } else {
            (grid.row(step.from), grid.column(step.from))
        };
        (upright, line)
    });
    let mut lines: Vec<(Node, Node, f64)> = Vec::new();
    for step in steps {
        match lines.last_mut() {
            Some((from, to, flow))
                if *to == step.from
                    && (step.flow - *flow).abs() < NOTHING
                    && (grid.row(*from) == grid.row(step.to)
                        || grid.column(*from) == grid.column(step.to)) =>
            {
                *to = step.to;
            }
            _ => lines.push((step.from, step.to, step.flow)),
        }
    }
    lines
        .into_iter()
        .map(|(from, to, flow)| Line {
            from: stage.point_of(shaft, from),
            to: stage.point_of(shaft, to),
            flow,
        })
        .chain(stem_lines)
        .collect()
}

/// How a line of a body looks that carries a power.
pub(super) fn stroke(live: &Live<'_>, body: Body, power: f64) -> Stroke {
    let width = THIN + FULL * power.abs().min(MOST);
    let stroke = live.stroke(body, width);
    if power.abs() < NOTHING && stroke.dash == Dash::Solid {
        // Free shafts are dashed already; a driven one without power is dotted.
        Stroke {
            dash: Dash::Dotted,
            ..stroke
        }
    } else {
        stroke
    }
}

/// Draws a line with its power: from `from` to `to` if positive.
pub(super) fn line(scene: &mut Scene, live: &Live<'_>, body: Body, ends: [Point; 2], power: f64) {
    let stroke = stroke(live, body, power);
    let [from, to] = ends;
    let (dx, dy) = (to.x - from.x, to.y - from.y);
    let length = dx.hypot(dy);
    if length < 0.01 {
        return;
    }
    // Squared ends close corners; dots would only blur them.
    let square = if stroke.dash == Dash::Solid {
        stroke.width / 2.0
    } else {
        0.0
    };
    let (ux, uy) = (dx / length, dy / length);
    scene.line(
        at(from.x - ux * square, from.y - uy * square),
        at(to.x + ux * square, to.y + uy * square),
        stroke,
    );
    if power.abs() < NOTHING || length < ARROW_ROOM {
        return;
    }
    let way = power.signum();
    let (size, ink) = if stroke.width >= 5.0 {
        (stroke.width * 0.95, Ink::Paper)
    } else {
        (9.0, stroke.ink)
    };
    let count = (length / ARROWS_APART).floor().max(1.0);
    for nth in 0..count as usize {
        let along = (nth as f64 + 0.5) / count * length + way * size / 2.0;
        let tip = at(from.x + ux * along, from.y + uy * along);
        scene.arrow_head(tip, (ux * way, uy * way), size, ink);
    }
}

/// Draws every shaft with its power; where two cross, the one along the axis passes behind.
pub(super) fn draw(scene: &mut Scene, stage: &Stage<'_>, live: &Live<'_>, powers: &Powers) {
    let shafts = 0..live.train.scenario().shafts.len();
    let all: Vec<(usize, Line)> = shafts
        .flat_map(|shaft| {
            let lines = lines(stage, live.train, powers, shaft);
            lines.into_iter().map(move |line| (shaft, line))
        })
        .collect();
    let is_flat = |line: &Line| (line.from.y - line.to.y).abs() < 0.01;
    let width = |shaft: usize, line: &Line| stroke(live, Body::Shaft(shaft), line.flow).width;
    for (shaft, line) in &all {
        if live.is_lit(Body::Shaft(*shaft)) {
            let halo = Stroke::solid(Ink::Lit, width(*shaft, line) + 8.0);
            scene.line(line.from, line.to, halo);
        }
    }
    let (flat, upright): (Vec<_>, Vec<_>) = all.into_iter().partition(|(_, line)| is_flat(line));
    for (shaft, line) in &flat {
        self::line(
            scene,
            live,
            Body::Shaft(*shaft),
            [line.from, line.to],
            line.flow,
        );
    }
    for (shaft, over) in &upright {
        for (_, under) in flat.iter().filter(|(other, _)| other != shaft) {
            let inside =
                |a: f64, b: f64, value: f64| a.min(b) + 1.0 < value && value < a.max(b) - 1.0;
            let (x, y) = (over.from.x, under.from.y);
            if inside(under.from.x, under.to.x, x) && inside(over.from.y, over.to.y, y) {
                let clear = width(*shaft, over) + 5.0;

                scene.fill_box(
                    Bounds {
                        left: x - clear / 2.0,
                        top: y - WIDEST / 2.0,
                        width: clear,
                        height: WIDEST,
                    },
                    Ink::Paper,
                );
            }
        }
    }
    for (shaft, line) in &upright {
        self::line(
            scene,
            live,
            Body::Shaft(*shaft),
            [line.from, line.to],
            line.flow,
        );
    }
}

/// Says so where lines should be wider than they can be, clear of other words.
pub(super) fn note_capped(scene: &mut Scene, stage: &Stage<'_>, train: &Train, powers: &Powers) {
    let shafts = 0..train.scenario().shafts.len();
    let flows = shafts.flat_map(|shaft| steps(stage.plan(), train, powers, shaft));
    let largest = flows.map(|step| step.flow.abs()).fold(0.0, f64::max);
    if largest <= MOST + NOTHING {
        return;
    }
    let most = number(largest, 3);
    let words = ["power-scale", "power-scale-short"]
        .map(|key| Catalogue::spoken().write(key, 0, &[("most", &most)]));
    let taken: Vec<Bounds> = scene.labels().map(Label::bounds).collect();
    // Below the axis, or beside the names of the brakes.
    let rows = [scene.height - 10.0, 13.0];
    let places = words.iter().flat_map(|text| rows.map(|y| (text, y)));
    for (text, y) in places {
        let mut label = Label {
            at: at(8.0, y),
            text: text.clone(),
            size: 12.0,
            bold: false,
            ink: Ink::Text,
            align: Align::Left,
            plate: false,
        };
        while label.at.x + label.bounds().width <= scene.width - 8.0 {
            if taken.iter().all(|other| !other.overlaps(&label.bounds())) {
                scene.label(label);
                return;
            }
            label.at.x += 6.0;
        }
    }
}

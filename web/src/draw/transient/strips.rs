//! The strips: their grids and lines.

use levertrain_core::transient::Shift;
use levertrain_core::words::{said, word};

use super::ends::{self, End};
use super::plan::{GAP, HEADING, Plan, STRIPS, Strip, letter};
use super::quantity::{Quantity, carrying, slipping};
use super::{Extents, View};
use crate::draw::scene::{Align, Bounds, Dash, Ink, Point, Scene, Stroke, at};

/// Room over the highest and under the lowest value, as a part of what they span.
const ROOM: f64 = 0.06;
/// Pixels between two points of a curve.
const STEP: f64 = 3.0;
/// What is drawn of a shift that was kept.
pub(super) const KEPT: Stroke = Stroke::solid(Ink::Quiet, 1.25);
/// What elements could carry.
pub(super) const CAPACITY: Stroke = Stroke::broken(Ink::Quiet, 1.25, Dash::Dotted);
/// Peaks of less than so many pixels are as good as none.
const FAINT: f64 = 3.0;
/// Radius of the dots where the time that is read crosses lines.
const DOT: f64 = 3.0;

/// The lines of a shift: their strip, what they show, and what they are called. Not what elements could carry.
pub(super) fn named(view: &View<'_>) -> Vec<(usize, Quantity, String)> {
    let label = |element: usize| view.train.scenario().elements[element].label().to_owned();
    let body = levertrain_core::Body::Shaft;
    let speeds = view.shafts.iter().map(|&shaft| {
        let name = view.train.body_label(body(shaft)).to_owned();
        (0, Quantity::Speed(shaft), name)
    });
    let torques = carrying(view.shift).into_iter();
    let torques = torques.map(|x| (1, Quantity::Torque(x), label(x)));
    let output = view.train.body_label(body(view.train.output())).to_owned();
    let output = [(2, Quantity::Output, output)];
    let powers = slipping(view.shift).into_iter();
    let powers = powers.map(|x| (3, Quantity::Power(x), label(x)));
    speeds.chain(torques).chain(output).chain(powers).collect()
}

/// How many lines end in each strip with a name.
pub(super) fn counts(view: &View<'_>) -> [usize; STRIPS] {
    let mut counts = [0; STRIPS];
    for (strip, ..) in named(view) {
        counts[strip] += 1;
    }
    counts[3] = 0;
    counts
}

/// All lines of one of the shifts, for its strip.
fn lines(view: &View<'_>, shift: &Shift) -> Vec<(usize, Quantity)> {
    let view = View { shift, ..*view };
    let capacities = shift
        .plan
        .commands
        .iter()
        .map(|x| (1, Quantity::Capacity(x.element)));
    let named = named(&view).into_iter();
    capacities
        .chain(named.map(|(strip, quantity, _)| (strip, quantity)))
        .collect()
}

/// The lowest and highest value of each strip with some room, zero included.
pub(super) fn extents(view: &View<'_>) -> Extents {
    let mut extents = [[0.0_f64; 2]; STRIPS];
    for shift in [Some(view.shift), view.kept].into_iter().flatten() {
        for (strip, quantity) in lines(view, shift) {
            // What an element could carry is cut off where it is far above what any carries.
            if matches!(quantity, Quantity::Capacity(_)) {
                continue;
            }
            for [_, value] in quantity.course(view, shift, shift.plan.until / 100.0) {
                let [low, high] = &mut extents[strip];
                *low = low.min(value);
                *high = high.max(value);
            }
        }
    }
    for [low, high] in &mut extents {
        let span = (*high - *low).max(1e-3);
        *high += span * ROOM;
        if *low < 0.0 {
            *low -= span * ROOM;
        }
    }
    for (own, kept) in extents.iter_mut().zip(view.extents.into_iter().flatten()) {
        *own = [own[0].min(kept[0]), own[1].max(kept[1])];
    }
    extents
}

pub(super) fn draw(scene: &mut Scene, view: &View<'_>, plan: &Plan) {
    let (speed, torque) = (view.units.0.symbol(), view.units.1.name());
    let headings = [
        said("diagram-timed-speeds", &[("unit", speed)]),
        said("diagram-timed-torques", &[("unit", torque)]),
        said("diagram-timed-output", &[("unit", torque)]),
        word("diagram-timed-power").to_owned(),
    ];
    for (strip, heading) in plan.strips.iter().zip(headings) {
        grid(scene, plan, strip, heading);
    }
    // What was kept lies behind.
    if let Some(kept) = view.kept {
        for (strip, quantity) in lines(view, kept) {
            if !matches!(quantity, Quantity::Capacity(_)) {
                let points = points(view, kept, plan, &plan.strips[strip], quantity);
                scene.path(points, KEPT);
            }
        }
    }
    for command in &view.shift.plan.commands {
        let quantity = Quantity::Capacity(command.element);
        for piece in inside(
            points(view, view.shift, plan, &plan.strips[1], quantity),
            &plan.strips[1],
        ) {
            scene.path(piece, CAPACITY);
        }
    }
    let mut ends: Vec<Vec<End>> = (0..STRIPS).map(|_| Vec::new()).collect();
    let mut peaks: Vec<Bounds> = Vec::new();
    let (mut order, mut last) = (0, 0);
    for (strip, quantity, name) in named(view) {
        order = if strip == last { order + 1 } else { 0 };
        last = strip;
        let points = points(view, view.shift, plan, &plan.strips[strip], quantity);
        let is_lit = matches!(quantity, Quantity::Speed(shaft) if view.lit == Some(shaft));
        if is_lit {
            scene.path(points.clone(), Stroke::solid(Ink::Lit, 7.0));
        }
        let end = points.last().copied();
        let peak = points.iter().copied().min_by(|a, b| a.y.total_cmp(&b.y));
        scene.path(points, stroke(view, quantity, order));
        match (strip, end, peak) {
            // What hardly slips has no peak to be named at.
            (3, _, Some(peak)) if plan.strips[3].y(0.0) - peak.y > FAINT => {
                name_at_peak(scene, plan, peak, name, &mut peaks);
            }
            (3, ..) => {}
            (_, Some(Point { y, .. }), _) => ends[strip].push(End { y, name, is_lit }),
            _ => {}
        }
    }
    for (strip, ends) in plan.strips.iter().zip(ends) {
        ends::draw(scene, plan, strip, ends);
    }
}

/// Dots where the time that is read crosses lines.
pub(super) fn dots(scene: &mut Scene, view: &View<'_>, plan: &Plan) {
    let Some((piece, later)) = view.shift.at(view.time) else {
        return;
    };
    for (strip, quantity, _) in named(view) {
        let value = quantity.value(view, view.shift, piece, later);
        let centre = at(plan.x(view.time), plan.strips[strip].y(value));
        scene.disc(centre, DOT + 1.5, Ink::Paper);
        scene.disc(centre, DOT, Ink::Text);
    }
}

/// Those of one strip are told apart by strokes as well as by names: what is applied is one line through all strips, what is
/// released another, and what stays applied is thinner.
fn stroke(view: &View<'_>, quantity: Quantity, order: usize) -> Stroke {
    let plain = Stroke::solid(Ink::Text, 2.0);
    match quantity {
        Quantity::Speed(shaft) if shaft == view.train.input() || shaft == view.train.output() => {
            plain
        }
        Quantity::Speed(_) => {
            let dashes = [Dash::Dashed, Dash::Chain, Dash::Solid, Dash::Dotted];
            Stroke::broken(Ink::Text, 1.5, dashes[order % dashes.len()])
        }
        Quantity::Torque(element) | Quantity::Power(element) => {
            let plan = &view.shift.plan;
            let is_commanded = plan.commands.iter().any(|x| x.element == element);
            match (is_commanded, plan.to.contains(element)) {
                (true, true) => plain,
                (true, false) => Stroke::broken(Ink::Text, 2.0, Dash::Dashed),
                _ => Stroke::broken(Ink::Text, 1.25, [Dash::Chain, Dash::Dotted][order % 2]),
            }
        }
        Quantity::Capacity(_) | Quantity::Output => plain,
    }
}

fn points(
    view: &View<'_>,
    shift: &Shift,
    plan: &Plan,
    strip: &Strip,
    quantity: Quantity,
) -> Vec<Point> {
    let course = quantity.course(view, shift, plan.pixel() * STEP);
    let until = view.shift.plan.until;
    let course = course.into_iter().filter(|[time, _]| *time <= until);
    course
        .map(|[time, value]| at(plan.x(time), strip.y(value)))
        .collect()
}

/// The parts of a line of straight pieces that lie in a strip.
fn inside(points: Vec<Point>, strip: &Strip) -> Vec<Vec<Point>> {
    let holds = |point: &Point| (strip.top..=strip.bottom).contains(&point.y);
    let mut parts: Vec<Vec<Point>> = vec![Vec::new()];
    let mut before: Option<Point> = None;
    for point in points {
        if let Some(from) = before
            && holds(&from) != holds(&point)
        {
            let edge = if from.y.min(point.y) < strip.top {
                strip.top
            } else {
                strip.bottom
            };
            let along = (edge - from.y) / (point.y - from.y);
            let crossing = at(from.x + (point.x - from.x) * along, edge);
            parts
                .last_mut()
                .into_iter()
                .for_each(|part| part.push(crossing));
            if !holds(&point) {
                parts.push(Vec::new());
            }
        }
        if holds(&point) {
            parts
                .last_mut()
                .into_iter()
                .for_each(|part| part.push(point));
        }
        before = Some(point);
    }
    parts.retain(|part| part.len() > 1);
    parts
}

fn grid(scene: &mut Scene, plan: &Plan, strip: &Strip, heading: String) {
    let guide = Stroke::solid(Ink::Guide, 1.0);
    for (y, number) in strip.steps() {
        scene.line(at(plan.left, y), at(plan.right, y), guide);
        scene.label(letter(
            at(plan.left - GAP, y),
            number,
            Ink::Quiet,
            Align::Right,
        ));
    }
    let zero = strip.y(0.0);
    scene.line(
        at(plan.left, zero),
        at(plan.right, zero),
        Stroke::solid(Ink::Quiet, 1.0),
    );
    let place = at(plan.left, strip.top - HEADING / 2.0 + 2.0);
    // Bold letters are wider.
    let heading = ends::fitted(heading, (scene.width - plan.left) / 1.06);
    let mut label = letter(place, heading, Ink::Text, Align::Left);
    label.bold = true;
    label.plate = true;
    scene.label(label);
}

/// Names a line over its highest point, or under the names that are there.
fn name_at_peak(
    scene: &mut Scene,
    plan: &Plan,
    peak: Point,
    name: String,
    peaks: &mut Vec<Bounds>,
) {
    let strip = &plan.strips[3];
    let name = ends::fitted(name, plan.right - plan.left);
    let width = letter(peak, name.clone(), Ink::Text, Align::Left)
        .bounds()
        .width;
    let x = (peak.x + 6.0).min(plan.right - width).max(plan.left);
    for row in 0..4 {
        let place = at(
            x,
            (peak.y + 8.0 + 14.0 * f64::from(row)).clamp(strip.top + 7.0, strip.bottom - 7.0),
        );
        let mut label = letter(place, name.clone(), Ink::Text, Align::Left);
        label.plate = true;
        let bounds = label.bounds();
        if !peaks.iter().any(|other| other.overlaps(&bounds)) {
            peaks.push(bounds);
            scene.label(label);
            return;
        }
    }
}

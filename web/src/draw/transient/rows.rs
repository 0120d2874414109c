//! A row for each command: how far it lets the element carry, over time.

use levertrain_core::transient::{CUT_RAMP, Command};
use levertrain_core::words::word;

use super::ends::{command_name, fitted};
use super::plan::{HEADING, Plan, letter};
use super::{View, bands};
use crate::draw::scene::{Align, Bounds, Ink, Scene, Stroke, at};
use crate::draw::text;

/// Room above and below a ramp in its row, in CSS pixels.
const EDGE: f64 = 5.0;

/// Times and heights, from 0 to 1, of a command.
fn ramp(view: &View<'_>, command: &Command) -> [[f64; 2]; 4] {
    let until = view.shift.plan.until;
    let Command {
        at: from,
        ramp,
        element,
    } = *command;
    if view.shift.plan.to.contains(element) {
        let full = from + view.dynamics.fill_time(element).value;
        [[from, 0.0], [full, 0.0], [full + ramp, 1.0], [until, 1.0]]
    } else {
        [[0.0, 1.0], [from, 1.0], [from + ramp, 0.0], [until, 0.0]]
    }
}

/// Where begin and end of each ramp can be taken hold of.
pub(super) fn grips(view: &View<'_>, plan: &Plan) -> Vec<[[f64; 2]; 2]> {
    let shift = &view.shift.plan;
    let y = |row: usize, height: f64| {
        plan.rows[row] + plan.row - EDGE - height * (plan.row - 2.0 * EDGE)
    };
    let commands = shift.commands.iter().enumerate().map(|(row, command)| {
        let points = ramp(view, command);
        let begin = if shift.to.contains(command.element) {
            points[0]
        } else {
            points[1]
        };
        [begin, points[2]].map(|[time, height]| [plan.x(time), y(row, height)])
    });
    let cut = shift.cut.iter().map(|cut| {
        let row = shift.commands.len();
        [cut.begin, cut.end].map(|time| [plan.x(time), y(row, 1.0)])
    });
    commands.chain(cut).collect()
}

pub(super) fn draw(scene: &mut Scene, view: &View<'_>, plan: &Plan) {
    let mut heading = letter(
        at(plan.left, plan.rows_top() + HEADING / 2.0 + 2.0),
        word("diagram-timed-commands").to_owned(),
        Ink::Text,
        Align::Left,
    );
    heading.bold = true;
    heading.plate = true;
    scene.label(heading);
    let shift = &view.shift.plan;
    for (row, command) in shift.commands.iter().enumerate() {
        let points = ramp(view, command);
        if shift.to.contains(command.element) {
            filling(scene, plan, row, [points[0][0], points[1][0]]);
        }
        let name = command_name(view, command.element);
        course(scene, plan, row, &points, name);
    }
    if let Some(cut) = shift.cut {
        let ramp = CUT_RAMP.min((cut.end - cut.begin) / 2.0);
        let low = 1.0 - cut.depth;
        let points = [
            [0.0, 1.0],
            [cut.begin, 1.0],
            [cut.begin + ramp, low],
            [cut.end - ramp, low],
            [cut.end, 1.0],
            [shift.until, 1.0],
        ];
        let name = word("diagram-timed-cut").to_owned();
        course(scene, plan, shift.commands.len(), &points, name);
    }
}

fn course(scene: &mut Scene, plan: &Plan, row: usize, points: &[[f64; 2]], name: String) {
    let bottom = plan.rows[row] + plan.row - EDGE;
    let height = plan.row - 2.0 * EDGE;
    let guide = Stroke::solid(Ink::Guide, 1.0);
    scene.line(at(plan.left, bottom), at(plan.right, bottom), guide);
    let corners: Vec<_> = points
        .iter()
        .map(|&[time, up]| at(plan.x(time), bottom - up * height))
        .collect();
    let mut under = corners.clone();
    under.extend([at(plan.right, bottom), at(plan.x(points[0][0]), bottom)]);
    scene.fill(under, Ink::Metal);
    scene.path(corners, Stroke::solid(Ink::Text, 2.0));
    let name = fitted(name, scene.width - plan.names);
    scene.label(letter(
        at(plan.names, bottom - height / 2.0),
        name,
        Ink::Text,
        Align::Left,
    ));
}

/// While an element is filled it does not carry yet.
fn filling(scene: &mut Scene, plan: &Plan, row: usize, [from, to]: [f64; 2]) {
    let [left, right] = [plan.x(from), plan.x(to)];
    let area = Bounds {
        left,
        top: plan.rows[row] + EDGE,
        width: right - left,
        height: plan.row - 2.0 * EDGE,
    };
    bands::hatch(scene, area, Stroke::solid(Ink::Guide, 1.0));
    let fill = word("diagram-timed-fill").to_owned();
    if text::width(&fill, super::plan::SIZE, false) + 8.0 < area.width {
        let mut label = letter(area.middle(), fill, Ink::Quiet, Align::Centre);
        label.plate = true;
        scene.label(label);
    }
}

//! Names at the right ends of lines, apart from each other.

use levertrain_core::words::said;

use super::View;
use super::plan::{LEADER, Plan, SIZE, Strip, letter};
use super::strips::named;
use crate::draw::names::cut;
use crate::draw::scene::{Align, Ink, Scene, Stroke, at};
use crate::draw::text;

/// Least distance of two names, one under the other.
const APART: f64 = 15.0;

/// How far from the ends of its strip a name stands at least.
const EDGE: f64 = 6.0;

/// A line that ends here, and what it is called.
pub(super) struct End {
    pub(super) y: f64,
    pub(super) name: String,
    pub(super) is_lit: bool,
}

/// All names that stand behind the right ends of lines and rows.
pub(super) fn all_names(view: &View<'_>) -> Vec<String> {
    let plan = &view.shift.plan;
    let commands = plan.commands.iter().map(|x| command_name(view, x.element));
    let cut = plan
        .cut
        .map(|_| levertrain_core::words::word("diagram-timed-cut").to_owned());
    let lines = named(view).into_iter().map(|(_, _, name)| name);
    commands.chain(cut).chain(lines).collect()
}

/// What is commanded of an element.
pub(super) fn command_name(view: &View<'_>, element: usize) -> String {
    let label = view.train.scenario().elements[element].label();
    let message = match view.shift.plan.to.contains(element) {
        true => "diagram-timed-applied",
        false => "diagram-timed-released",
    };
    said(message, &[("element", label)])
}

/// As much of a name as there is room for.
pub(super) fn fitted(name: String, room: f64) -> String {
    if text::width(&name, SIZE, false) <= room {
        return name;
    }
    let ends = name.char_indices().map(|(end, _)| end).rev();
    let cuts = ends.map(|end| cut(&name[..end]));
    let mut fitting = cuts.filter(|short| text::width(short, SIZE, false) <= room);
    fitting.next().unwrap_or_else(|| cut(""))
}

/// Names what ends in a strip.
pub(super) fn draw(scene: &mut Scene, plan: &Plan, strip: &Strip, mut ends: Vec<End>) {
    ends.sort_by(|a, b| a.y.total_cmp(&b.y));
    let places = spread(
        &ends.iter().map(|end| end.y).collect::<Vec<_>>(),
        [strip.top + EDGE, strip.bottom - EDGE],
    );
    for (end, y) in ends.into_iter().zip(places) {
        let from = at(plan.right + 1.0, end.y);
        let leader = Stroke::solid(Ink::Guide, 1.0);
        scene.line(from, at(plan.right + LEADER - 2.0, y), leader);
        let name = fitted(end.name, scene.width - plan.names);
        let mut label = letter(at(plan.names, y), name, Ink::Text, Align::Left);
        label.bold = end.is_lit;
        scene.label(label);
    }
}

/// Places near to those that are wanted, in their order, apart, and between two limits as far as there is room.
fn spread(wanted: &[f64], [top, bottom]: [f64; 2]) -> Vec<f64> {
    let mut places = Vec::with_capacity(wanted.len());
    let mut least = top;
    for &y in wanted {
        let y = y.clamp(top, bottom).max(least);
        places.push(y);
        least = y + APART;
    }
    let mut most = bottom;
    for y in places.iter_mut().rev() {
        *y = y.min(most);
        most = *y - APART;
    }
    places
}

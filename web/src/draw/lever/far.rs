//! The diagram for the back row of a class: everything on it larger, in the columns and the height that there
//! are, without the key.

use super::geometry::{Diagram, HEADING};
use super::{drawing, key, naming};
use crate::draw::scene::{Ink, Label, Mark, Point, Scene, at};
use crate::draw::section::{ASKED, Stage};
use crate::motion::live::Live;

/// The ground of a diagram that is shown larger than it is drawn.
pub struct Far<'a> {
    stage: Stage<'a>,
    height: f64,
    merged: bool,
}

impl<'a> Far<'a> {
    /// A diagram under a half-section, `size` in CSS pixels as it is drawn: so much less wide than the
    /// half-section as it is shown larger.
    pub fn of(stage: &Stage<'a>, (width, height): (f64, f64), merged: bool) -> Self {
        let times = stage.size().width / width.max(1.0);
        Self {
            stage: stage.for_levers(times),
            height,
            merged,
        }
    }

    /// Draws it; speeds may be `asked` for.
    pub fn scene(&self, live: &Live<'_>, asked: bool) -> Scene {
        let diagram = self.diagram(live);
        let mut scene = drawing::draw(&diagram);
        scene.height = self.height;
        if asked {
            ask_for_speeds(&mut scene);
        }
        scene
    }

    /// The shaft whose node or tie is drawn at a point.
    pub fn shaft_at(&self, live: &Live<'_>, Point { x, y }: Point) -> Option<usize> {
        self.diagram(live).shaft_at(at(x, y))
    }

    /// What a class could misread.
    #[cfg(test)]
    pub fn unclear(&self, live: &Live<'_>) -> Vec<String> {
        super::clear_tests::unclear(&self.diagram(live))
    }

    fn diagram<'b>(&'b self, live: &'b Live<'b>) -> Diagram<'b> {
        // The key that a diagram keeps room for lies beyond what is shown.
        let key = key::height(&self.stage, live.powers.is_some());
        // Over the levers of a set there is no heading, but half a line of a name.
        let head = if self.merged { HEADING } else { HEADING / 2.0 };
        let height = self.height + key;
        let mut diagram = Diagram::as_high_as(live, &self.stage, self.merged, height, head);
        (diagram.names_sets, diagram.has_key) = (false, false);
        diagram.naming = Some(naming::ALL);
        diagram
    }
}

/// Puts a mark in the place of every speed, and takes the numbers off the axis, from which they could be read.
fn ask_for_speeds(scene: &mut Scene) {
    // Letters in nodes stand on the node itself; some are figures.
    let on_axis = |label: &Label| !label.plate && label.ink != Ink::Paper && is_number(&label.text);
    scene
        .marks
        .retain(|mark| !matches!(mark, Mark::Text(label) if on_axis(label)));
    for mark in &mut scene.marks {
        if let Mark::Text(label) = mark
            && label.plate
            && is_number(&label.text)
        {
            ASKED.clone_into(&mut label.text);
        }
    }
}

/// Whether a text is a number as drawings write it.
fn is_number(text: &str) -> bool {
    let figure = |c: char| c.is_ascii_digit() || matches!(c, '\u{2212}' | '.' | ',');
    text.contains(|c: char| c.is_ascii_digit()) && text.chars().all(figure)
}

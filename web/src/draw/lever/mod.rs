//! The lever diagram: every coupling a lever under its set, all on one speed axis.
//!
//! Height is speed, up is forward, and what shares a shaft is tied by a level line. From the
//! state follow the places of levers, nodes and ties (`geometry`, on the `axis`); hit tests
//! read those, and `drawing` turns them into `marks`. What there is to say (`saying`) goes
//! wherever `placing` finds room for it; `labels` decides what matters most, and the `key`
//! explains the signs.

mod arranging;
mod axis;
#[cfg(test)]
mod clear_tests;
mod drawing;
mod far;
mod geometry;
mod key;
#[cfg(test)]
mod label_tests;
mod labels;
mod marks;
mod naming;
mod nodes;
mod pinned;
mod placing;
mod saying;
#[cfg(test)]
mod tests;

use super::scene::{Point, Scene};
use super::section::Stage;
use crate::motion::live::Live;
pub use far::Far;
use geometry::Diagram;
pub use nodes::{NodePlaces, node_places};
pub use pinned::LEGEND;

/// Draws it; `merged` joins sets that share two shafts into one lever.
pub fn scene(live: &Live<'_>, stage: &Stage<'_>, merged: bool) -> Scene {
    drawing::draw(&Diagram::of(live, stage, merged))
}

/// The same to stand under the half-section, where each set has its name already.
pub fn scene_under_section(live: &Live<'_>, stage: &Stage<'_>, merged: bool) -> Scene {
    let mut diagram = Diagram::of(live, stage, merged);
    diagram.names_sets = false;
    drawing::draw(&diagram)
}

/// How far down the key of the signs begins.
pub fn key_top(live: &Live<'_>, stage: &Stage<'_>) -> f64 {
    stage.size().lever_height - key::height(stage, live.powers.is_some())
}

/// The levers of `live` before those of `pinned`, which `legend` names in a line of its own at the foot,
/// [`LEGEND`] high; `names_sets` as they stand by themselves.
pub fn scene_over(
    live: &Live<'_>,
    stage: &Stage<'_>,
    merged: bool,
    names_sets: bool,
    (pinned, legend): (&Live<'_>, &str),
) -> Scene {
    let live = pinned::reaching(live, pinned);
    let mut diagram = Diagram::of(&live, stage, merged);
    diagram.names_sets = names_sets;
    let levers = pinned::levers(&diagram, pinned, merged);
    diagram.behind = pinned::lines(&levers);
    let mut scene = drawing::draw(&diagram);
    pinned::put_behind(&mut scene, &diagram, &levers);
    pinned::legend(&mut scene, legend);
    scene
}

/// As [`shaft_at`], in the picture of [`scene_over`].
pub fn shaft_at_over(
    live: &Live<'_>,
    stage: &Stage<'_>,
    merged: bool,
    pinned: &Live<'_>,
    point: Point,
) -> Option<usize> {
    shaft_at(&pinned::reaching(live, pinned), stage, merged, point)
}

/// The shaft whose node or tie is drawn at a point.
pub fn shaft_at(live: &Live<'_>, stage: &Stage<'_>, merged: bool, point: Point) -> Option<usize> {
    Diagram::of(live, stage, merged).shaft_at(point)
}

//! Drawings by name.

use levertrain_core::Problem;
use levertrain_core::words::word;

use super::session::Session;
use crate::draw::scene::Scene;
use crate::draw::{end_view, flow, lever, operating};

/// A drawing of the stage as it stands on the page, where the levers are under the half-section.
///
/// # Errors
/// There is no drawing of that name.
pub fn on_stage(session: &Session, drawing: &str) -> Result<Scene, Problem> {
    let (live, stage) = (session.live(), session.stage());
    match drawing {
        "section" => {
            let mut scene = stage.scene(&live);
            if let Some(moved) = session.moved() {
                moved.glide(&mut scene);
            }
            Ok(scene)
        }
        "lever" => {
            let merged = session.settings().merged;
            let mut scene = lever::scene_under_section(&live, &stage, merged);
            if let Some(moved) = session.moved() {
                moved.glide_levers(&mut scene, lever::key_top(&live, &stage));
            }
            Ok(scene)
        }
        _ => Err(unknown(drawing)),
    }
}

/// A drawing of what is on screen. The half-section and the levers fit the width of the stage,
/// and sets that share two shafts may be merged into one lever; the others have `size`.
///
/// # Errors
/// There is no drawing of that name.
pub fn scene(session: &Session, drawing: &str, size: (f64, f64)) -> Result<Scene, Problem> {
    let live = session.live();
    let settings = session.settings();
    Ok(match drawing {
        "section" => session.stage().scene(&live),
        "lever" => lever::scene(&live, &session.stage(), settings.merged),
        "flow" => flow::scene(&live, size),
        "operating" => {
            let units = (settings.speed_unit, settings.torque_unit);
            let conditions = settings.conditions();
            operating::scene(&session.combination(), &conditions, units, size)
        }
        _ => {
            let mut couplings = session.train().scenario().couplings.iter();
            let id = drawing.strip_prefix("end:");
            let coupling = couplings.position(|coupling| Some(coupling.facts().id()) == id);
            let coupling = coupling.ok_or_else(|| unknown(drawing))?;
            end_view::scene(&live, coupling, size)
        }
    })
}

fn unknown(drawing: &str) -> Problem {
    let problem = ("problem-drawing", &[("drawing", drawing)][..]);
    Problem::of(word("place-drawing"), problem, ("fix-drawing", &[]))
}

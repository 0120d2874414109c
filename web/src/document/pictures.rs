//! Drawings by name.

use levertrain_core::Problem;
use levertrain_core::words::word;

use super::session::Session;
use crate::draw::scene::Scene;
use crate::draw::{end_view, flow, lever, operating};

/// A drawing as it stands on the page, where the levers are under the half-section; otherwise as
/// [`scene`].
///
/// # Errors
/// There is no drawing of that name.
pub fn on_page(session: &Session, drawing: &str, size: (f64, f64)) -> Result<Scene, Problem> {
    if drawing == "lever" {
        let merged = session.settings().merged;
        let stage = session.stage();
        return Ok(lever::scene_under_section(&session.live(), &stage, merged));
    }
    scene(session, drawing, size)
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
            let coupling = coupling.ok_or_else(|| {
                let problem = ("problem-drawing", &[("drawing", drawing)][..]);
                Problem::of(word("place-drawing"), problem, ("fix-drawing", &[]))
            })?;
            end_view::scene(&live, coupling, size)
        }
    })
}

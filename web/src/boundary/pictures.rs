//! Drawings by name.

use wasm_bindgen::JsValue;

use super::plain::no_such;
use crate::document::session::Session;
use crate::draw::scene::Scene;
use crate::draw::{end_view, flow, lever, operating};

/// A drawing as it stands on the page, where the levers are under the half-section; otherwise as
/// [`scene`].
pub fn on_page(
    session: &Session,
    drawing: &str,
    (stage_width, merged): (f64, bool),
    size: (f64, f64),
) -> Result<Scene, JsValue> {
    if drawing == "lever" {
        let stage = session.layout().stage(stage_width);
        return Ok(lever::scene_under_section(&session.live(), &stage, merged));
    }
    scene(session, drawing, (stage_width, merged), size)
}

/// A drawing of what is on screen. The half-section and the levers fit the width of the stage,
/// and sets that share two shafts may be merged into one lever; the others have `size`.
pub fn scene(
    session: &Session,
    drawing: &str,
    (stage_width, merged): (f64, bool),
    size: (f64, f64),
) -> Result<Scene, JsValue> {
    let live = session.live();
    let stage = || session.layout().stage(stage_width);
    Ok(match drawing {
        "section" => stage().scene(&live),
        "lever" => lever::scene(&live, &stage(), merged),
        "flow" => flow::scene(&live, size),
        "operating" => {
            let (conditions, units) = (session.conditions(), session.units());
            operating::scene(&session.combination(), conditions, units, size)
        }
        _ => {
            let mut couplings = session.train().scenario().couplings.iter();
            let id = drawing.strip_prefix("end:");
            let coupling = couplings.position(|coupling| Some(coupling.facts().id()) == id);
            let fix = "use section, lever, flow, operating or end: and the id of a coupling";
            let coupling = coupling.ok_or_else(|| no_such("drawing", drawing, "a drawing", fix))?;
            end_view::scene(&live, coupling, size)
        }
    })
}

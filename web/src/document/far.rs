//! Both drawings for the back row of a class, in the width of the stage.

use levertrain_core::{Problem, words::word};
use serde::Serialize;

use super::session::Session;
use crate::draw::scene::{Scene, at};
use crate::draw::{lever, section};

/// The half-section and the levers in large letters.
pub struct FarDrawings {
    section: section::Far,
}

/// How large the half-section is in large letters, in CSS pixels.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
#[cfg_attr(feature = "types", derive(ts_rs::TS))]
pub struct FarSize {
    /// From its left to its right edge.
    pub width: f64,
    /// From its upper to its lower edge.
    pub height: f64,
    /// How much of that is above the half-section as it is else.
    pub above: f64,
}

impl FarDrawings {
    /// Letters in the half-section are `letters` times as large as usual.
    pub fn of(session: &Session, letters: f64) -> Self {
        Self {
            section: section::Far::of(&session.stage(), letters),
        }
    }

    /// How large the half-section is.
    pub fn size(&self, session: &Session) -> FarSize {
        let size = session.stage().size();
        let (above, below) = self.section.beyond();
        FarSize {
            width: size.width,
            height: size.section_height + above + below,
            above,
        }
    }

    /// A drawing in a size; speeds may be `asked` for.
    ///
    /// # Errors
    /// There is no drawing of that name.
    pub fn scene(
        &self,
        session: &Session,
        drawing: &str,
        size: (f64, f64),
        asked: bool,
    ) -> Result<Scene, Problem> {
        let (mut live, stage) = (session.live(), session.stage());
        live.powers = None;
        match drawing {
            "section" => Ok(self.section.scene(&stage, &live, asked)),
            "lever" => {
                let merged = session.settings().merged;
                Ok(lever::Far::of(&stage, size, merged).scene(&live, asked))
            }
            _ => {
                let problem = ("problem-drawing", &[("drawing", drawing)][..]);
                let place = word("place-drawing");
                Err(Problem::of(place, problem, ("fix-drawing", &[])))
            }
        }
    }

    /// The shaft drawn at a point of a drawing in a size, if any.
    pub fn shaft_at(
        &self,
        session: &Session,
        drawing: &str,
        (x, y): (f64, f64),
        size: (f64, f64),
    ) -> Option<usize> {
        let (mut live, stage) = (session.live(), session.stage());
        live.powers = None;
        match drawing {
            "section" => stage.shaft_at(at(x, y - self.section.beyond().0)),
            "lever" => {
                let merged = session.settings().merged;
                lever::Far::of(&stage, size, merged).shaft_at(&live, at(x, y))
            }
            _ => None,
        }
    }
}

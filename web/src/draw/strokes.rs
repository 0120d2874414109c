//! What motions look like, everywhere: ink by direction, broken lines where nothing decides.

use levertrain_core::Body;

use super::scene::{Dash, Ink, Stroke};
use crate::motion::live::{Live, Motion};

impl Motion {
    /// The ink of a member that moves so.
    pub const fn ink(self) -> Ink {
        match self {
            Self::Held => Ink::Held,
            Self::Forward => Ink::Forward,
            Self::Backward => Ink::Backward,
            Self::Free => Ink::Free,
            Self::Fighting => Ink::Fight,
        }
    }
}

impl Live<'_> {
    /// The line that a body is drawn with.
    pub fn stroke(&self, body: Body, width: f64) -> Stroke {
        let motion = self.motion(body);
        let dash = if motion == Motion::Free {
            Dash::Dashed
        } else {
            Dash::Solid
        };
        Stroke {
            ink: motion.ink(),
            width,
            dash,
        }
    }
}

//! Lessons: a walk through the power flow of a combination, step by step, and the story of a shift from
//! one combination to another. Nothing of them is written by hand for a scenario: each step is a typed
//! claim, computed from the exact solution, and sentences are written from it.

mod shift;
mod shift_report;
mod shift_words;
mod walk;
mod walk_kept;
mod walk_order;
mod walk_report;
mod walk_stage;
mod walk_tie;
mod walk_words;

pub use shift::{Change, Late, Shaft, Shift, Swap};
pub use shift_report::{ShiftReport, ShiftRow, ShiftStep};
pub use walk::{Claim, Output, Step, Walk};
pub use walk_kept::Kept;
pub use walk_report::{PartReport, StepReport, WalkReport};
pub use walk_stage::{Part, SetStage, Stage, StageRatio, What};
pub use walk_tie::Tie;

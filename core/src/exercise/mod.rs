//! Exercises: questions about a train, which the solver marks.
//!
//! A [`Task`] says what is asked and never what is right: that is worked out when an answer comes, so no
//! answer stands in a file, in a link or on a page. Each kind has a file of its own, which does three things:
//! `ask` makes one by dice out of what the train offers, so that every one made has an answer; `solve`
//! gives a right answer; and `mark` gives credit and hints, which come from what was answered.
//!
//! Credit is an exact share of 1. Where several things are picked, it is the share of those that are right,
//! each wrong one taking back what a right one gives:
//! (right − wrong) / all that are right, at least 0.

mod answer;
mod decimal;
mod direction;
mod failed;
mod hint;
mod members;
mod neutral;
mod order;
mod reach;
mod read;
mod report;
mod sheet;
mod speed;
mod task;
mod teeth;
mod tie_up;
mod write;

pub use answer::Marked;
pub use hint::Hint;
pub use read::Way;
pub use report::{ChoiceReport, MarkReport, QuestionReport, RowReport, SheetReport};
pub use sheet::{FORMAT, MOST_TASKS, Sheet};
pub use task::{Kind, MOST_ONE_WAYS, Part, Task};
pub use write::TaskReport;

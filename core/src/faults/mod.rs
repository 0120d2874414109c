//! Fault finding: what faults make of the named ranges, and which faults explain what was observed.
//!
//! A fault changes what is applied, or the train itself, and the exact solver says what that gives
//! (`faulty.rs`):
//!
//! - what will not apply is left out of every range, and what will not release is added to every one;
//! - a one-way clutch that does not hold is a clutch that nobody applies, and one that stays locked
//!   is a clutch that is always applied;
//! - a member whose spline is broken turns on a shaft of its own. Only the drag of its bearings acts on it,
//!   which is nothing here;
//! - what slips carries some torque, but its two sides turn at different speeds, which ratios do not
//!   decide. It shows where the range would behave otherwise without it, which is where it carries
//!   torque: by virtual work, an element that carries none can be released with nothing changed, and one that
//!   carries some cannot (derived).
//!
//! This is the ideal train: no more than that. A real gearbox may protect itself, leave out ranges,
//! or hide one fault behind another, and its control is not known here.
//!
//! Backwards ([`Search`]) there is nothing clever either: what every single and double fault makes of every
//! range is worked out once, and then read.

mod answer;
mod explain;
mod fault;
mod faulty;
mod next_test;
mod observed;
mod outcome;
mod report;
mod search;
mod trial;

pub use answer::{Answer, Does};
pub use explain::{Explanations, Group, Rank};
pub use fault::Fault;
pub use faulty::Faulty;
pub use next_test::NextTest;
pub use observed::{Observed, Other};
pub use outcome::Outcome;
pub use report::{
    BecomesReport, ExplanationsReport, FaultReport, FaultsReport, GroupReport, NextTestReport,
    TrialReport,
};
pub use search::Search;
pub use trial::Trial;

//! Shared helpers of the external checks.

pub mod browser;
pub mod cases;
pub mod check;
pub mod elimination;
pub mod files;
pub mod gearing;
pub mod generate;
pub mod in_words;
pub mod laws;
pub mod literals;
pub mod made_up;
pub mod rational;
pub mod schema;
pub mod script_literals;
pub mod sketch;
#[path = "../../core/benches/solver/worst.rs"]
pub mod worst;

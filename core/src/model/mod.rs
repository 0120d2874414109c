//! What a scenario file can say: the scenario, its kinds of couplings, and checks of their teeth.

pub mod coupling;
pub(crate) mod curve;
pub mod scenario;
pub mod tooth_checks;

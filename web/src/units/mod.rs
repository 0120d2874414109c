//! The units that a page may show speeds and torques in.

pub mod speed_unit;
pub mod torque_unit;

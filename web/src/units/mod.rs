//! The units that a page may show speeds, torques, and what goes with them, in.

pub mod road_unit;
pub mod speed_unit;
pub mod torque_unit;

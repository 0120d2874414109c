//! What needs floating point: losses, what a clutch can hold, operating points; and what flows
//! through the members, power and tooth meshes, which the exact speeds and torques give.

pub(crate) mod capacity;
pub(crate) mod losses;
pub(crate) mod mesh_orders;
pub mod operating;
pub(crate) mod power;

//! A train with more than one source, or more than one output: what decides which speeds, and how torques share.
//!
//! Whatever turns the train or is turned by it from outside stands at a [`Port`]: the input, further sources such as motors or a second
//! engine, the output and further outputs. With d degrees of freedom, d speeds that do not depend on each other decide all
//! others, each as an exact linear combination of them ([`Speeds`]). Torques are the dual: gears do no work, so that for every
//! motion ω that the train allows Σ T·ω = 0 over the ports (virtual work); with p ports, p − d torques decide all
//! others ([`Efforts`]). For a differential that is the sum rule of its side speeds, and the fixed split of its torque.
//!
//! Speeds, torques and standstill ratios ([`standstills`]) are exact. Shares of power with losses in the electric path ([`Shares`]) and
//! the [`Region`] within limits are in `f64`. Gears have no losses here, and nothing has inertia.
//!
//! Speeds are positive as the input's. A torque acts on the train from outside, positive along positive speed: so
//! power = torque · speed is positive at a port that feeds the train, and negative at one that is fed.

mod data;
mod efforts;
mod program;
mod region;
mod report;
mod shares;
mod speeds;
mod stand;
mod standstill;

pub use data::{
    AMOUNTS, EFFICIENCIES, EFFICIENCY, ENGINE_SPEED, MOTOR_SPEED, Machine, MachineKind, Port,
    Ports, Role, SPEEDS, TORQUE,
};
pub use efforts::Efforts;
pub use region::{Edge, NoRegion, Region};
pub use report::{RegionReport, SharesReport, StandReport};
pub use shares::{NoShares, Share, Shares};
pub use speeds::{Speeds, Tie};
pub use stand::Stand;
pub use standstill::{Standstill, standstills};

//! Exact kinematics of planetary gear trains: model, solver, analysis.
//!
//! A [`Scenario`] is a gear train as data; a [`Train`] is one that fits together. Solving a
//! combination of applied clutches and brakes gives a [`Combination`]: driving, neutral,
//! output held or tied up, with every speed as an exact [`Fraction`] of the input's.
//!
//! ```
//! use levertrain_core::{State, Train};
//!
//! let train = Train::parse(r#"{
//!   "format": 1, "name": "One set", "input": "s", "output": "c",
//!   "shafts": [{"id": "s", "label": "Sun"}, {"id": "c", "label": "Carrier"},
//!              {"id": "r", "label": "Ring"}],
//!   "couplings": [{"kind": "planetary", "id": "p", "label": "Set",
//!     "sun": {"shaft": "s", "teeth": 20}, "ring": {"shaft": "r", "teeth": 80},
//!     "carrier": "c", "pinion": {"teeth": 30, "count": 4}}],
//!   "elements": [{"kind": "brake", "id": "B", "label": "Brake B", "shaft": "r"}],
//!   "ranges": []
//! }"#).unwrap();
//! let held = train.solve(train.element_set(["B"]).unwrap());
//! assert_eq!(held.state(), &State::Driving(5.into()));
//! assert_eq!(held.shaft_speed(1).unwrap().to_string(), "1/5");
//! ```
//!
//! Conventions, everywhere: a ratio is input speed over output speed; a speed is per input
//! turn, dimensionless, positive in the input's direction; lengths are in modules.

mod capacity;
mod chart;
pub mod coupling;
mod element_set;
mod fault;
mod fight;
mod lever;
mod losses;
mod mesh_orders;
pub mod operating;
mod power;
pub mod report;
pub mod scenario;
mod settle;
pub mod short_sort;
mod solve;
pub mod tooth_checks;
mod torque;
mod train;
mod validate;
pub mod words;
mod working;

pub use capacity::{Capacity, Grip, Holding, first_to_slip};
pub use chart::{ChartEntry, RangeChart};
pub use element_set::ElementSet;
pub use fault::Fault;
pub use fight::Fight;
pub use lever::{Lever, LeverNode, TrainLever};
pub use levertrain_exact::Fraction;
pub use losses::{LossModel, Lossy, LossyTorques, MESH_EFFICIENCY};
pub use mesh_orders::MeshOrder;
pub use power::PowerFlow;
pub use scenario::Scenario;
pub use settle::{Duty, Settled, Verdict};
pub use solve::{Combination, State};
pub use torque::Torques;
pub use train::{Body, Train};
pub use working::{Expression, MOST_SYMBOLS, NoFormula, SetEquation, Tooth, Working, Written};

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

// The rooms, in the order of the alphabet; which may use which stands in `tests/tests/rooms.rs`.
mod base;
pub mod edit;
pub mod exercise;
pub mod faults;
pub mod json;
pub mod layouts;
pub mod lesson;
mod load;
mod model;
pub mod report;
pub mod search;
mod solve;
pub mod sources;
pub mod swaps;
mod teach;
pub mod traction;
mod train;
pub mod transient;
pub mod words;

pub use base::characters::place_of;
pub use base::element_set::ElementSet;
pub use base::problem::Problem;
pub use base::short_sort;
pub use base::sine::sin_cos;
pub use levertrain_exact::{Fraction, Speeds};
pub use load::capacity::{Capacity, Grip, Holding, first_to_slip};
pub use load::losses::{LossModel, Lossy, LossyTorques, MESH_EFFICIENCY, PerCoupling};
pub use load::mesh_orders::MeshOrder;
pub use load::operating;
pub use load::power::PowerFlow;
pub use model::scenario::Scenario;
pub use model::{coupling, scenario, tooth_checks};
pub use solve::chart::{ChartEntry, RangeChart};
pub use solve::fight::Fight;
pub use solve::settle::{Duty, Settled, Verdict};
pub use solve::torque::Torques;
pub use solve::{Combination, State};
pub use teach::lever::{Lever, LeverNode, TrainLever};
pub use teach::nesting::{Embedding, Joint, Nesting, vertices};
pub use teach::working::{
    Expression, MOST_SYMBOLS, NoFormula, SetEquation, Tooth, Working, Written,
};
pub use train::{Body, Train};

//! What stands behind the output: the wheels and the final drive, and the mass that follows from the file's load.
//!
//! A scenario may say so in its field `vehicle`, which the reader of scenarios keeps as the text that it is; it is
//! understood here, where it is used. What is left out is assumed, and said to be.

use crate::base::problem::Problem;
use crate::json::{Fields, Value, strict};
use crate::train::Train;
use crate::transient::{Inertias, Known};

/// Radius of a driven wheel in m where a file does not say: a passenger car's, in order of size (assumed, no source).
pub const WHEEL_RADIUS: f64 = 0.3;
/// Turns of the output for a turn of the wheels, likewise.
pub const FINAL_DRIVE: f64 = 3.5;
/// Smallest and largest radius of a wheel in m.
pub const RADIUS: (f64, f64) = (0.01, 10.0);
/// Smallest and largest ratio from output to wheels.
pub const RATIO: (f64, f64) = (0.01, 100.0);
/// Standard gravity in m/s².
pub const GRAVITY: f64 = 9.806_65;
/// rad/s in a rev/min.
const RADIANS: f64 = std::f64::consts::PI / 30.0;

/// What a file says of a vehicle.
#[derive(Debug, Clone, Default, PartialEq)]
struct Written {
    wheel_radius: Option<f64>,
    final_drive: Option<f64>,
}

/// Reads what is right of it; the rest is told.
fn read(value: Value, problems: &mut Vec<Problem>) -> Option<Written> {
    let spare = ["wheel_radius", "final_drive"];
    let mut fields = Fields::of(value, PLACE, &[], &spare, problems)?;
    Some(Written {
        wheel_radius: fields.take_spare("wheel_radius").flatten(),
        final_drive: fields.take_spare("final_drive").flatten(),
    })
}

/// What turns the output's turning into driving, each value the file's or assumed.
///
/// The final drive has no losses of its own here: the file's load is what the output feels, whatever stands behind it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Vehicle {
    /// Radius of a driven wheel in m.
    pub wheel_radius: Known,
    /// Output speed over wheel speed.
    pub final_drive: Known,
    /// N·m at the output: c0 + c1·n + c2·n² with n in rev/min, on the level.
    load: [f64; 3],
    /// N·m that the whole weight would put on the output.
    weight: f64,
    /// Inertia in kg·m² of all that the output drives, as seen at the output.
    pub inertia: Known,
}

impl Vehicle {
    /// That of a train, and what is wrong with what its file says; what is faulty is assumed instead. `None` without a
    /// load.
    ///
    /// The inertia behind the output is the file's `load_inertia`. Where it has none, it is that of the mass that
    /// `weight` stands for, weight / g · radius / ratio, and the turning of the wheels themselves is left out; where there
    /// is no weight either, it is what `dynamics` assumes.
    pub fn of(train: &Train, inertias: &Inertias) -> Option<(Self, Vec<Problem>)> {
        let scenario = train.scenario();
        let road = scenario.load.as_ref()?;
        let mut problems = Vec::new();
        let text = scenario.vehicle.as_deref();
        let written = text
            .and_then(|text| strict(text).ok())
            .and_then(|value| read(value, &mut problems))
            .unwrap_or_default();
        let mut known = |name: &str, value: Option<f64>, (least, most): (f64, f64), otherwise| {
            let allowed = value.filter(|value| (least..=most).contains(value));
            if let (Some(value), None) = (value, allowed) {
                let place = format!("{PLACE}.{name}");
                let message = "problem-out-of-range";
                problems.push(Problem::out_of_range(&place, message, value, least, most));
            }
            Known {
                value: allowed.unwrap_or(otherwise),
                is_assumed: allowed.is_none(),
            }
        };
        let wheel_radius = known("wheel_radius", written.wheel_radius, RADIUS, WHEEL_RADIUS);
        let final_drive = known("final_drive", written.final_drive, RATIO, FINAL_DRIVE);
        let lever = wheel_radius.value / final_drive.value;
        let inertia = match inertias.load() {
            assumed if assumed.is_assumed && road.weight > 0.0 => Known {
                value: road.weight / GRAVITY * lever,
                is_assumed: false,
            },
            known => known,
        };
        let vehicle = Self {
            wheel_radius,
            final_drive,
            load: road.terms(0.0),
            weight: road.weight,
            inertia,
        };
        Some((vehicle, problems))
    }

    /// Metres that the vehicle goes for a radian of the output, which is N·m at the output for a newton at the wheels.
    pub fn lever(&self) -> f64 {
        self.wheel_radius.value / self.final_drive.value
    }

    /// Road speed in m/s at an output speed in rev/min.
    pub fn speed(&self, output: f64) -> f64 {
        output * RADIANS * self.lever()
    }

    /// Output speed in rev/min at a road speed in m/s.
    pub fn output(&self, speed: f64) -> f64 {
        speed / (RADIANS * self.lever())
    }

    /// Force in N that holds the vehicle back on the level at a road speed in m/s, both without sign.
    pub fn level(&self, speed: f64) -> f64 {
        let [c0, c1, c2] = self.load;
        let output = self.output(speed);
        (c0 + output * (c1 + output * c2)) / self.lever()
    }

    /// The same up a slope, as rise over run; negative downhill.
    pub fn resistance(&self, speed: f64, slope: f64) -> f64 {
        let sine = slope / (1.0 + slope * slope).sqrt();
        self.level(speed) + self.weight() * sine
    }

    /// Weight in N.
    pub fn weight(&self) -> f64 {
        self.weight / self.lever()
    }

    /// Mass in kg by the file's weight.
    pub fn mass(&self) -> f64 {
        self.weight() / GRAVITY
    }
}

/// Where a file says it.
const PLACE: &str = "vehicle";

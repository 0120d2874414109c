//! What a shift needs to know beyond the gearing: inertias, fill times, torques at full command.
//!
//! A scenario may say so in its field `dynamics`. The reader of scenarios keeps that as it stands, so that the engine that a page
//! opens with need not know of it; it is understood here, where it is used. What is left out is assumed,
//! and said to be.

use crate::base::element_set::ElementSet;
use crate::base::problem::{MOST_PROBLEMS, Problem};
use crate::json::{Value, read_fields, strict};
use crate::load::capacity::Capacity;
use crate::solve::settle::Duty;
use crate::solve::torque::Torques;
use crate::train::{Train, unknown};

/// A value, and whether it is the file's.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Known {
    /// The value.
    pub value: f64,
    /// Whether it is assumed, as the file does not say.
    pub is_assumed: bool,
}

/// Inertia of a shaft with its gears in kg·m², where a file does not say: a member of a passenger-car
/// train, in order of size (assumed, no source).
pub const SHAFT_INERTIA: f64 = 0.01;
/// Inertia of an engine in kg·m², likewise.
pub const ENGINE_INERTIA: f64 = 0.15;
/// Inertia of what the output drives in kg·m², likewise: 1200 kg on wheels of 0.3 m behind a final drive of 3.5 is 8.8.
pub const LOAD_INERTIA: f64 = 9.0;
/// Time to fill a clutch or brake in seconds, likewise.
pub const FILL_TIME: f64 = 0.1;
/// Speed of the input at the start in rev/min, likewise.
pub const INPUT_SPEED: f64 = 2000.0;
/// Torque at the input in N·m, likewise.
pub const INPUT_TORQUE: f64 = 100.0;
/// How much more than in any range an element can hold at full command, likewise.
pub const RESERVE: f64 = 1.5;

/// Smallest and largest inertia in kg·m².
pub const INERTIA: (f64, f64) = (1e-9, 1e6);
/// Shortest and longest fill time in seconds.
pub const FILL: (f64, f64) = (0.0, 5.0);
/// Smallest and largest torque at full command in N·m.
pub const FULL_TORQUE: (f64, f64) = (1e-3, 1e6);

/// What a file says of a train in motion.
#[derive(Debug, Clone, Default, PartialEq)]
struct Written {
    engine_inertia: Option<f64>,
    load_inertia: Option<f64>,
    shafts: Option<Vec<ShaftWritten>>,
    elements: Option<Vec<ElementWritten>>,
}

#[derive(Debug, Clone, PartialEq)]
struct ShaftWritten {
    shaft: String,
    inertia: f64,
}

#[derive(Debug, Clone, PartialEq)]
struct ElementWritten {
    element: String,
    fill_time: Option<f64>,
    full_torque: Option<f64>,
}

read_fields!(ShaftWritten { shaft, inertia });
read_fields!(ElementWritten { element } optional { fill_time, full_torque });

/// Reads what is right of it; the rest is told.
fn read(value: Value, place: &str, problems: &mut Vec<Problem>) -> Option<Written> {
    let spare = ["engine_inertia", "load_inertia", "shafts", "elements"];
    let mut fields = crate::json::Fields::of(value, place, &[], &spare, problems)?;
    Some(Written {
        engine_inertia: fields.take_spare("engine_inertia").flatten(),
        load_inertia: fields.take_spare("load_inertia").flatten(),
        shafts: fields.take_spare("shafts").flatten(),
        elements: fields.take_spare("elements").flatten(),
    })
}

/// Inertias of a train in kg·m², each known or assumed.
#[derive(Debug, Clone, PartialEq)]
pub struct Inertias {
    engine: Known,
    load: Known,
    shafts: Vec<Known>,
}

/// What a file says, as far as it is right.
struct Stated {
    inertias: Inertias,
    fill_times: Vec<Option<f64>>,
    full_torques: Vec<Option<f64>>,
    problems: Vec<Problem>,
}

fn known(value: Option<f64>, otherwise: f64) -> Known {
    Known {
        value: value.unwrap_or(otherwise),
        is_assumed: value.is_none(),
    }
}

impl Stated {
    fn of(train: &Train) -> Self {
        let mut problems = Vec::new();
        let scenario = train.scenario();
        let written = scenario.dynamics.as_deref();
        let written = written
            .and_then(|text| strict(text).ok())
            .and_then(|written| read(written, PLACE, &mut problems))
            .unwrap_or_default();
        let mut checked = |place: String, value: Option<f64>, (least, most): (f64, f64)| {
            let value = value?;
            if (least..=most).contains(&value) {
                return Some(value);
            }
            let message = "problem-out-of-range";
            problems.push(Problem::out_of_range(&place, message, value, least, most));
            None
        };
        let engine_inertia = checked(
            format!("{PLACE}.engine_inertia"),
            written.engine_inertia,
            INERTIA,
        );
        let load_inertia = checked(
            format!("{PLACE}.load_inertia"),
            written.load_inertia,
            INERTIA,
        );
        let mut shafts = vec![None; scenario.shafts.len()];
        let mut wrong = Vec::new();
        for (index, entry) in written.shafts.iter().flatten().enumerate() {
            let place = format!("{PLACE}.shafts[{index}]");
            match scenario.shafts.iter().position(|x| x.id == entry.shaft) {
                Some(shaft) => {
                    let place = format!("{place}.inertia");
                    shafts[shaft] = checked(place, Some(entry.inertia), INERTIA);
                }
                None => {
                    let ids = scenario.shafts.iter().map(|shaft| shaft.id.as_str());
                    let place = format!("{place}.shaft");
                    wrong.push(unknown("shaft", &place, &entry.shaft, ids));
                }
            }
        }
        let mut fill_times = vec![None; scenario.elements.len()];
        let mut full_torques = fill_times.clone();
        for (index, entry) in written.elements.iter().flatten().enumerate() {
            let place = format!("{PLACE}.elements[{index}]");
            match train.element(&entry.element) {
                Some(element) => {
                    let fill = format!("{place}.fill_time");
                    fill_times[element] = checked(fill, entry.fill_time, FILL);
                    let place = format!("{place}.full_torque");
                    full_torques[element] = checked(place, entry.full_torque, FULL_TORQUE);
                }
                None => {
                    let ids = scenario.elements.iter().map(|element| element.id());
                    let place = format!("{place}.element");
                    wrong.push(unknown("element", &place, &entry.element, ids));
                }
            }
        }
        problems.extend(wrong);
        problems.truncate(MOST_PROBLEMS);
        let shafts = shafts.into_iter().map(|x| known(x, SHAFT_INERTIA));
        Self {
            inertias: Inertias {
                engine: known(engine_inertia, ENGINE_INERTIA),
                load: known(load_inertia, LOAD_INERTIA),
                shafts: shafts.collect(),
            },
            fill_times,
            full_torques,
            problems,
        }
    }
}

impl Inertias {
    /// Those of a train, and what is wrong with what its file says of a train in motion; what is faulty is assumed instead.
    ///
    /// Unlike [`Dynamics::of`] it looks at no range.
    pub fn of(train: &Train) -> (Self, Vec<Problem>) {
        let stated = Stated::of(train);
        (stated.inertias, stated.problems)
    }

    /// That of a shaft, with what is fixed to it inside the train.
    pub fn shaft(&self, shaft: usize) -> Known {
        self.shafts[shaft]
    }

    /// That of what drives the input.
    pub fn engine(&self) -> Known {
        self.engine
    }

    /// That of what the output drives, as seen at the output.
    pub fn load(&self) -> Known {
        self.load
    }
}

/// All that a shift needs to know of a train, each value known or assumed.
#[derive(Debug, Clone, PartialEq)]
pub struct Dynamics {
    inertias: Inertias,
    fill_times: Vec<Known>,
    full_torques: Vec<Known>,
    /// Speed of the input at the start in rev/min.
    pub input_speed: Known,
    /// Torque at the input in N·m.
    pub input_torque: Known,
}

impl Dynamics {
    /// Those of a train, and what is wrong with what its file says of them; what is faulty is assumed instead.
    ///
    /// The input's torque is that of the engine at full pedal, at the input's speed, or less where some element
    /// would not hold that in some range with [`RESERVE`].
    pub fn of(train: &Train) -> (Self, Vec<Problem>) {
        let scenario = train.scenario();
        let stated = Stated::of(train);
        let most = most_held(train);
        let torques = stated.full_torques.into_iter().zip(&scenario.elements);
        let written: Vec<Option<f64>> = torques
            .map(|(written, element)| {
                let friction = element.friction();
                written.or_else(|| friction.map(|x| Capacity::of(x).uniform_wear))
            })
            .collect();
        // As much as the weakest of all holds with some reserve.
        let holding = written.iter().zip(&most);
        let input = holding
            .filter_map(|(full, held)| Some((*full)? / (*held)? / RESERVE))
            .fold(
                engine_torque(train, INPUT_SPEED).unwrap_or(INPUT_TORQUE),
                f64::min,
            );
        let input_torque = known(None, tidy(input).max(FULL_TORQUE.0));
        let full = |(written, held): (Option<f64>, &Option<f64>)| {
            let held = held.unwrap_or(2.0) * input_torque.value;
            known(written, (held * RESERVE).max(FULL_TORQUE.0))
        };
        let fill_times = stated.fill_times.into_iter();
        let dynamics = Self {
            inertias: stated.inertias,
            fill_times: fill_times.map(|x| known(x, FILL_TIME)).collect(),
            full_torques: written.into_iter().zip(&most).map(full).collect(),
            input_speed: known(None, INPUT_SPEED),
            input_torque,
        };
        (dynamics, stated.problems)
    }

    /// Inertia of a shaft in kg·m², with what is fixed to it inside the train.
    pub fn shaft(&self, shaft: usize) -> Known {
        self.inertias.shaft(shaft)
    }

    /// Inertia in kg·m² of what drives the input.
    pub fn engine_inertia(&self) -> Known {
        self.inertias.engine()
    }

    /// Inertia in kg·m² of what the output drives, as seen at the output.
    pub fn load_inertia(&self) -> Known {
        self.inertias.load()
    }

    /// Seconds from the command until an element begins to carry.
    pub fn fill_time(&self, element: usize) -> Known {
        self.fill_times[element]
    }

    /// Torque in N·m that an element can carry at full command.
    pub fn full_torque(&self, element: usize) -> Known {
        self.full_torques[element]
    }

    /// Torque from outside at the output in N·m: that of the file's load at the speed of the start; where it
    /// has none, that at which nothing speeds up after the shift, or before it.
    pub fn output_torque(&self, train: &Train, from: ElementSet, to: ElementSet) -> Known {
        let before = train.settle(from, Duty::Drive).combination;
        let ratio = before.state().ratio().map(|ratio| ratio.to_f64());
        if let (Some(load), Some(ratio)) = (&train.scenario().load, ratio) {
            let speed = (self.input_speed.value / ratio).abs();
            let torque = load.constant + load.linear * speed + load.quadratic * speed * speed;
            return Known {
                value: -torque * ratio.signum(),
                is_assumed: false,
            };
        }
        let after = train.settle(to, Duty::Drive).combination;
        let after = after.state().ratio().map(|ratio| ratio.to_f64());
        Known {
            value: -after.or(ratio).unwrap_or(0.0) * self.input_torque.value,
            is_assumed: true,
        }
    }
}

/// A torque with its first two figures alone, which is no more than it.
fn tidy(torque: f64) -> f64 {
    let size = 10_f64.powf(torque.log10().floor() - 1.0);
    (torque / size).floor() * size
}

/// Where a file says it.
const PLACE: &str = "dynamics";

/// Torque of the file's engine at full pedal, if it reaches that speed in rev/min.
fn engine_torque(train: &Train, speed: f64) -> Option<f64> {
    let points = &train.scenario().engine.as_ref()?.full;
    let next = points.iter().position(|&[at, _]| at >= speed)?;
    let [end, after] = points[next];
    let Some([begin, before]) = next.checked_sub(1).map(|last| points[last]) else {
        return (end == speed).then_some(after);
    };
    Some(before + (after - before) * (speed - begin) / (end - begin))
}

/// The most that each element holds in any named range, per unit of input torque.
fn most_held(train: &Train) -> Vec<Option<f64>> {
    let mut most = vec![None; train.scenario().elements.len()];
    for range in 0..train.scenario().ranges.len() {
        let settled = train.settle(train.range(range), Duty::Drive);
        let Some(torques) = Torques::of(&settled.combination) else {
            continue;
        };
        for (element, most) in most.iter_mut().enumerate() {
            let held = torques.element(element).map(|x| x.abs().to_f64());
            let known = most.iter().copied();
            *most = known.chain(held.filter(|&x| x > 0.0)).reduce(f64::max);
        }
    }
    most
}

//! What drives a train, what it drives, and within which limits.
//!
//! A scenario may say so in its field `sources`, which the reader of scenarios keeps as it stands; it is understood
//! here, where it is used. What is left out is assumed, and said to be.

use crate::base::characters::{is_blank, steers};
use crate::base::problem::{MOST_PROBLEMS, Problem};
use crate::json::{Fields, Read, Value, one_of, strict};
use crate::model::scenario::limits::LABEL_CHARS;
use crate::train::{Train, unknown};
use crate::transient::Known;

/// Highest speed of an engine in rev/min where a file does not say (assumed, no source).
pub const ENGINE_SPEED: f64 = 6000.0;
/// Highest speed of a motor in rev/min, likewise.
pub const MOTOR_SPEED: f64 = 12000.0;
/// Greatest torque of a source in N·m, likewise.
pub const TORQUE: f64 = 100.0;
/// Efficiency of a motor with its inverter and leads, likewise.
pub const EFFICIENCY: f64 = 0.9;

/// Smallest and largest limit of speed in rev/min.
pub const SPEEDS: (f64, f64) = (1.0, 1e6);
/// Smallest and largest limit of torque in N·m, and of power in kW.
pub const AMOUNTS: (f64, f64) = (1e-3, 1e6);
/// Lowest and highest efficiency.
pub const EFFICIENCIES: (f64, f64) = (0.01, 1.0);
/// Most further sources.
const MOST_SOURCES: usize = 4;
/// Most further outputs.
const MOST_OUTPUTS: usize = 4;
const PLACE: &str = "sources";

/// What stands at a port.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Role {
    /// What drives the input.
    Input,
    /// A further source.
    Source,
    /// What the output drives.
    Output,
    /// What a further output drives.
    Further,
}

/// A kind of source.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum MachineKind {
    /// Turns and drives forward only; how it drags is left out.
    Engine,
    /// Turns, drives and brakes either way; braking it generates.
    Motor,
}

/// A source with its limits.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Machine {
    /// What it is.
    pub kind: MachineKind,
    /// Highest speed in rev/min.
    pub speed: Known,
    /// Greatest torque in N·m.
    pub torque: Known,
    /// Greatest power at its shaft in kW, where that is less than speed and torque allow.
    pub power: Option<f64>,
    /// Efficiency of a motor with what supplies it, the same either way; 1 of an engine.
    pub efficiency: Known,
}

/// Where something outside turns the train, or is turned by it.
#[derive(Debug, Clone, PartialEq)]
pub struct Port {
    /// What stands there.
    pub role: Role,
    /// The shaft.
    pub shaft: usize,
    /// What people call it: a source's label, or that of the shaft.
    pub label: String,
    /// The source, unless it is an output.
    pub machine: Option<Machine>,
}

/// All ports of a train: the input, further sources, the output, further outputs.
#[derive(Debug, Clone, PartialEq)]
pub struct Ports {
    /// In that order.
    pub list: Vec<Port>,
    /// Most that a battery gives, in kW, where that is limited.
    pub battery: Option<f64>,
}

/// A source as written.
#[derive(Debug, Clone, Default, PartialEq)]
struct Written {
    shaft: Option<String>,
    label: Option<String>,
    kind: Option<MachineKind>,
    speed: Option<f64>,
    torque: Option<f64>,
    power: Option<f64>,
    efficiency: Option<f64>,
}

/// The field as written, without what is wrong in it.
#[derive(Debug, Clone, Default)]
struct Field {
    input: Option<Written>,
    /// With their places in the file.
    further: Vec<(usize, Written)>,
    outputs: Vec<(usize, String)>,
    battery: Option<f64>,
}

impl Read for MachineKind {
    fn read(value: Value, place: &str, problems: &mut Vec<Problem>) -> Option<Self> {
        let words = [("engine", Self::Engine), ("motor", Self::Motor)];
        one_of(&value, place, &words, problems)
    }
}

impl Read for Written {
    fn read(value: Value, place: &str, problems: &mut Vec<Problem>) -> Option<Self> {
        let spare = [
            "label",
            "kind",
            "speed",
            "torque",
            "power",
            "efficiency",
            "shaft",
        ];
        let mut fields = Fields::of(value, place, &[], &spare, problems)?;
        Some(Self {
            shaft: fields.take_spare("shaft").flatten(),
            label: fields.take_spare("label").flatten(),
            kind: fields.take_spare("kind").flatten(),
            speed: fields.take_spare("speed").flatten(),
            torque: fields.take_spare("torque").flatten(),
            power: fields.take_spare("power").flatten(),
            efficiency: fields.take_spare("efficiency").flatten(),
        })
    }
}

impl Read for Field {
    fn read(value: Value, place: &str, problems: &mut Vec<Problem>) -> Option<Self> {
        let spare = ["input", "further", "outputs", "battery"];
        let mut fields = Fields::of(value, place, &[], &spare, problems)?;
        let input = fields.take_spare("input").flatten();
        let further = fields.take_spare("further").flatten();
        let outputs = fields.take_spare("outputs").flatten();
        let battery = fields.take_spare("battery").flatten();
        Some(Self {
            input,
            further: few(further, &format!("{place}.further"), MOST_SOURCES, problems),
            outputs: few(outputs, &format!("{place}.outputs"), MOST_OUTPUTS, problems),
            battery,
        })
    }
}

impl Ports {
    /// Those of a train, and what is wrong with what its file says of them: a value that is faulty is assumed instead, and what has no
    /// place is left out.
    pub fn of(train: &Train) -> (Self, Vec<Problem>) {
        let mut problems = Vec::new();
        let scenario = train.scenario();
        let field: Field = scenario
            .sources
            .as_deref()
            .and_then(|text| strict(text).ok())
            .and_then(|written| Read::read(written, PLACE, &mut problems))
            .unwrap_or_default();
        let label = |shaft: usize| scenario.shafts[shaft].label.clone();
        let shaft_of = |id: &str, place: &str, problems: &mut Vec<Problem>| {
            let found = scenario.shafts.iter().position(|shaft| shaft.id == id);
            if found.is_none() {
                let ids = scenario.shafts.iter().map(|shaft| shaft.id.as_str());
                problems.push(unknown("shaft", place, id, ids));
            }
            found
        };
        let place = format!("{PLACE}.input");
        let written = field.input.unwrap_or_default();
        if written.shaft.is_some() {
            let what = ("problem-unknown-field", &[("name", "shaft")][..]);
            problems.push(Problem::of(&place, what, ("fix-leave-out", &[])));
        }
        let input = train.input();
        let mut list = vec![Port {
            role: Role::Input,
            shaft: input,
            label: labelled(&written, &place, &mut problems).unwrap_or_else(|| label(input)),
            machine: Some(machine(
                &written,
                &place,
                MachineKind::Engine,
                train,
                &mut problems,
            )),
        }];
        let place = format!("{PLACE}.further");
        for (index, written) in &field.further {
            let place = format!("{place}[{index}]");
            let Some(id) = &written.shaft else {
                let what = ("problem-missing-field", &[("name", "shaft")][..]);
                problems.push(Problem::of(&place, what, ("fix-add", &[])));
                continue;
            };
            let Some(shaft) = shaft_of(id, &format!("{place}.shaft"), &mut problems) else {
                continue;
            };
            list.push(Port {
                role: Role::Source,
                shaft,
                label: labelled(written, &place, &mut problems).unwrap_or_else(|| label(shaft)),
                machine: Some(machine(
                    written,
                    &place,
                    MachineKind::Motor,
                    train,
                    &mut problems,
                )),
            });
        }
        let mut output = |role: Role, shaft: usize| {
            list.push(Port {
                role,
                shaft,
                label: label(shaft),
                machine: None,
            });
        };
        output(Role::Output, train.output());
        let place = format!("{PLACE}.outputs");
        let mut taken = vec![train.output()];
        for (index, id) in &field.outputs {
            let place = format!("{place}[{index}]");
            let Some(shaft) = shaft_of(id, &place, &mut problems) else {
                continue;
            };
            let wrong = match () {
                () if shaft == train.input() => "problem-input-as-well",
                () if taken.contains(&shaft) => "problem-named-twice",
                () => {
                    taken.push(shaft);
                    output(Role::Further, shaft);
                    continue;
                }
            };
            let fix = ("fix-another-shaft", &[][..]);
            problems.push(Problem::of(&place, (wrong, &[("id", id)]), fix));
        }
        let place = format!("{PLACE}.battery");
        let battery = field
            .battery
            .and_then(|power| within(power, (0.0, AMOUNTS.1), &place, &mut problems));
        problems.truncate(MOST_PROBLEMS);
        (Self { list, battery }, problems)
    }

    /// The place of the output in the list.
    pub fn output(&self) -> usize {
        let is_output = |port: &Port| port.role == Role::Output;
        self.list.iter().position(is_output).unwrap_or_default()
    }

    /// Whether the file names more than one source or output.
    pub fn is_branched(&self) -> bool {
        self.list.len() > 2
    }

    /// The places of all motors.
    pub(super) fn motors(&self) -> Vec<usize> {
        let ports = self.list.iter().enumerate();
        ports
            .filter(|(_, port)| {
                port.machine
                    .is_some_and(|machine| machine.kind == MachineKind::Motor)
            })
            .map(|(index, _)| index)
            .collect()
    }
}

/// What is right of the first items of a list, as many as it may have, each with its place.
fn few<T: Read>(
    items: Option<Vec<Value>>,
    place: &str,
    most: usize,
    problems: &mut Vec<Problem>,
) -> Vec<(usize, T)> {
    let items = items.unwrap_or_default();
    if items.len() > most {
        let (found, allowed) = (items.len().to_string(), most.to_string());
        problems.push(Problem::of(
            place,
            (
                "problem-too-many-entries",
                &[("found", &found), ("most", &allowed)],
            ),
            ("fix-keep-at-most", &[("most", &allowed)]),
        ));
    }
    let items = items.into_iter().take(most).enumerate();
    items
        .filter_map(|(at, item)| Some((at, T::read(item, &format!("{place}[{at}]"), problems)?)))
        .collect()
}

/// The label of a source, if it is one.
fn labelled(written: &Written, place: &str, problems: &mut Vec<Problem>) -> Option<String> {
    let label = written.label.as_ref()?;
    let characters = label.chars().count();
    let hidden = label.chars().any(|c| c.is_control() || steers(c));
    if (1..=LABEL_CHARS).contains(&characters) && !hidden && !label.chars().all(is_blank) {
        return Some(label.clone());
    }
    let values = [("text", &**label), ("characters", &characters.to_string())];
    let most = LABEL_CHARS.to_string();
    problems.push(Problem::of(
        &format!("{place}.label"),
        ("problem-characters", &values),
        ("fix-characters", &[("least", "1"), ("most", &most)]),
    ));
    None
}

fn within(
    value: f64,
    (least, most): (f64, f64),
    place: &str,
    problems: &mut Vec<Problem>,
) -> Option<f64> {
    if (least..=most).contains(&value) {
        return Some(value);
    }
    let message = "problem-out-of-range";
    problems.push(Problem::out_of_range(place, message, value, least, most));
    None
}

/// A source as written; an input's limits are those of the file's engine where it does not say others.
fn machine(
    written: &Written,
    place: &str,
    usual: MachineKind,
    train: &Train,
    problems: &mut Vec<Problem>,
) -> Machine {
    let mut checked = |name: &str, value: Option<f64>, range: (f64, f64)| {
        within(value?, range, &format!("{place}.{name}"), problems)
    };
    let known = |value: Option<f64>, of_engine: Option<f64>, otherwise: f64| Known {
        value: value.or(of_engine).unwrap_or(otherwise),
        is_assumed: value.or(of_engine).is_none(),
    };
    let kind = written.kind.unwrap_or(usual);
    let engine = train.scenario().engine.as_ref();
    let full = engine.filter(|_| usual == MachineKind::Engine);
    let full = full
        .map(|engine| engine.full.as_slice())
        .unwrap_or_default();
    let is_motor = kind == MachineKind::Motor;
    let speed = if is_motor { MOTOR_SPEED } else { ENGINE_SPEED };
    let most = full.iter().map(|&[_, torque]| torque).reduce(f64::max);
    let efficiency = checked("efficiency", written.efficiency, EFFICIENCIES);
    Machine {
        kind,
        speed: known(
            checked("speed", written.speed, SPEEDS),
            full.last().map(|&[speed, _]| speed),
            speed,
        ),
        torque: known(
            checked("torque", written.torque, AMOUNTS),
            most.filter(|&torque| torque > 0.0),
            TORQUE,
        ),
        power: checked("power", written.power, AMOUNTS),
        efficiency: match is_motor {
            true => known(efficiency, None, EFFICIENCY),
            false => known(Some(1.0), None, 1.0),
        },
    }
}

//! How a train with several sources stands, as plain data.

use levertrain_exact::Fraction;
use serde::Serialize;

use super::data::{MachineKind, Port, Role};
use super::region::{NoRegion, Region};
use super::shares::{NoShares, Shares};
use super::stand::{MOST, Stand, beyond};
use super::standstill::standstills;
use crate::report::Exact;
use crate::train::Train;

/// Below this part of the largest a power or torque is told as none.
const NOTHING: f64 = 1e-9;

/// How a train stands.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "types", derive(ts_rs::TS))]
#[cfg_attr(feature = "types", ts(rename = "SourcesStand"))]
#[serde(rename_all = "camelCase")]
pub struct StandReport {
    /// How many speeds can be chosen.
    pub freedom: usize,
    /// The input, further sources, the output, further outputs.
    pub ports: Vec<PortReport>,
    /// All shafts.
    pub shafts: Vec<TurnReport>,
    /// The applied elements that carry a torque that is decided, and those of which none is.
    pub elements: Vec<PassReport>,
    /// At which ratios of output to input speed ports stand still.
    pub standstills: Vec<StandstillReport>,
    /// Whether the motors balance each other; `null` where they cannot.
    pub balanced: Option<bool>,
    /// Electric power in W that all motors take together, less what they give.
    pub electric: f64,
    /// Most power in W that a battery gives; `null` without a limit.
    pub battery: Option<f64>,
    /// Speeds in rev/min and torques in N·m can be set as far as this.
    pub most: f64,
}

/// A port.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "types", derive(ts_rs::TS))]
#[cfg_attr(feature = "types", ts(rename = "SourcesPort"))]
#[serde(rename_all = "camelCase")]
pub struct PortReport {
    /// What stands there.
    #[cfg_attr(
        feature = "types",
        ts(type = "\"input\" | \"source\" | \"output\" | \"further\"")
    )]
    pub role: &'static str,
    /// Id of its shaft.
    pub shaft: String,
    /// What people call it.
    pub label: String,
    /// What kind of source it is; an output is none.
    #[cfg_attr(feature = "types", ts(type = "\"engine\" | \"motor\" | null"))]
    pub kind: Option<&'static str>,
    /// Highest speed in rev/min.
    pub most_speed: Option<f64>,
    /// Greatest torque in N·m.
    pub most_torque: Option<f64>,
    /// Greatest power in W.
    pub most_power: Option<f64>,
    /// Efficiency of a motor.
    pub efficiency: Option<f64>,
    /// Which of these are assumed: `speed`, `torque`, `efficiency`.
    pub assumed: Vec<&'static str>,
    /// rev/min.
    pub speed: f64,
    /// N·m on the train from outside.
    pub torque: f64,
    /// W, positive where it feeds the train.
    pub power: f64,
    /// Whether it feeds the train, is fed, stands still, or carries no torque.
    #[cfg_attr(
        feature = "types",
        ts(type = "\"feeds\" | \"fed\" | \"still\" | \"idle\"")
    )]
    pub does: &'static str,
    /// Which limits it is beyond: `speed`, `torque`, `power`.
    pub beyond: Vec<&'static str>,
    /// Whether its torque is given.
    pub given: bool,
    /// Its torque in those that are given.
    pub formula: Vec<PartReport>,
}

/// A shaft.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "types", derive(ts_rs::TS))]
#[cfg_attr(feature = "types", ts(rename = "SourcesShaft"))]
#[serde(rename_all = "camelCase")]
pub struct TurnReport {
    /// Its id.
    pub id: String,
    /// What people call it, with what stands at it.
    pub label: String,
    /// rev/min.
    pub speed: f64,
    /// Whether it is kept at its speed.
    pub kept: bool,
    /// Whether its speed is one of those that decide the others.
    pub given: bool,
    /// Whether it can be turned while those that are kept stay.
    pub moves: bool,
    /// What people call those that decide it where it cannot be turned; none where it is held.
    pub decided_by: Vec<String>,
    /// What the shaft itself is called.
    pub name: String,
    /// Its speed in those that are given; nothing where it is held.
    pub formula: Vec<PartReport>,
}

/// A part of a sum: a factor, and of what.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "types", derive(ts_rs::TS))]
#[cfg_attr(feature = "types", ts(rename = "SourcesPart"))]
pub struct PartReport {
    /// Not zero.
    pub factor: Exact,
    /// What people call what is given.
    pub label: String,
}

/// An applied element.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "types", derive(ts_rs::TS))]
#[cfg_attr(feature = "types", ts(rename = "SourcesElement"))]
pub struct PassReport {
    /// Its id.
    pub id: String,
    /// What people call it.
    pub label: String,
    /// N·m from its first end to its second; `null` where nothing decides it.
    pub torque: Option<f64>,
}

/// A ratio at which a port stands still.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "types", derive(ts_rs::TS))]
#[cfg_attr(feature = "types", ts(rename = "SourcesStandstill"))]
pub struct StandstillReport {
    /// What people call it.
    pub label: String,
    /// Output speed over input speed.
    pub ratio: Exact,
    /// Whether it is a motor, so that no power goes through it there.
    pub motor: bool,
}

/// What the output can do within all limits.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "types", derive(ts_rs::TS))]
#[cfg_attr(feature = "types", ts(rename = "SourcesRegion"))]
pub struct RegionReport {
    /// Speed of the output in rev/min, least and most torque that it delivers in N·m.
    pub edges: Vec<[f64; 3]>,
    /// Why there is none.
    #[cfg_attr(
        feature = "types",
        ts(type = "\"held\" | \"free\" | \"too-fast\" | \"empty\" | \"unlimited\" | null")
    )]
    pub refused: Option<&'static str>,
    /// Whom that is about.
    pub about: Option<String>,
}

/// Shares of power over the ratio of output to input speed.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "types", derive(ts_rs::TS))]
#[cfg_attr(feature = "types", ts(rename = "SourcesShares"))]
pub struct SharesReport {
    /// In order of their ratios.
    pub points: Vec<SharePoint>,
    /// Whether motors balance each other without a battery.
    pub balanced: bool,
    /// Why there are none.
    #[cfg_attr(
        feature = "types",
        ts(type = "\"freedom\" | \"torques\" | \"idle\" | null")
    )]
    pub refused: Option<&'static str>,
}

/// The shares at one ratio.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "types", derive(ts_rs::TS))]
#[cfg_attr(feature = "types", ts(rename = "SourcesShare"))]
pub struct SharePoint {
    /// Output speed over input speed.
    pub ratio: f64,
    /// Power of each port over that of the input.
    pub powers: Vec<f64>,
    /// Power at the outputs over that of the input, where motors balance each other.
    pub efficiency: Option<f64>,
}

fn parts<'a>(factors: &[Fraction], labels: impl Iterator<Item = &'a str>) -> Vec<PartReport> {
    let pairs = factors.iter().zip(labels);
    pairs
        .filter(|(factor, _)| !factor.is_zero())
        .map(|(factor, label)| PartReport {
            factor: Exact::from(factor),
            label: label.to_owned(),
        })
        .collect()
}

impl StandReport {
    /// That of a stand.
    pub fn of(train: &Train, stand: &Stand) -> Self {
        let scenario = train.scenario();
        let labels: Vec<String> = (0..scenario.shafts.len())
            .map(|shaft| shaft_label(train, stand, shaft))
            .collect();
        let list = &stand.ports().list;
        let port_labels = |port: &usize| list[*port].label.as_str();
        let largest = (0..list.len())
            .map(|port| stand.power(port).abs())
            .fold(0.0, f64::max);
        let decided = stand.decided(train);
        let speeds = stand.speeds();
        let shafts = scenario.shafts.iter().enumerate().map(|(at, shaft)| {
            let given = speeds.given().iter().map(|&given| labels[given].as_str());
            TurnReport {
                id: shaft.id.clone(),
                label: labels[at].clone(),
                speed: stand.turns()[at],
                kept: stand.is_kept(at),
                given: speeds.given().contains(&at),
                moves: decided[at].is_none(),
                decided_by: (decided[at].iter().flatten())
                    .map(|&by| labels[by].clone())
                    .collect(),
                name: shaft.label.clone(),
                formula: parts(speeds.shaft(at).unwrap_or_default(), given),
            }
        });
        let efforts = stand.efforts();
        let ports = list.iter().enumerate().map(|(at, port)| {
            let given = efforts.given().iter().map(port_labels);
            PortReport {
                speed: stand.turns()[port.shaft],
                torque: stand.torques()[at],
                power: stand.power(at),
                does: does(stand, at, largest),
                beyond: beyond(stand, at),
                given: efforts.given().contains(&at)
                    && !(stand.is_balanced() == Some(true) && at == 0),
                formula: parts(efforts.port(at), given),
                ..PortReport::of(train, port)
            }
        });
        let values: Vec<f64> = efforts
            .given()
            .iter()
            .map(|&port| stand.torques()[port])
            .collect();
        let torque = |element: usize| {
            let own = efforts.element(element)?.iter().zip(&values);
            Some(own.map(|(factor, value)| factor.to_f64() * value).sum())
        };
        let elements = stand.applied().iter().map(|element| PassReport {
            id: scenario.elements[element].id().to_owned(),
            label: scenario.elements[element].label().to_owned(),
            torque: torque(element),
        });
        let still = standstills(train, stand.applied(), stand.ports()).into_iter();
        let is_motor = |port: &Port| {
            port.machine
                .is_some_and(|machine| machine.kind == MachineKind::Motor)
        };
        Self {
            freedom: speeds.freedom(),
            ports: ports.collect(),
            shafts: shafts.collect(),
            elements: elements.collect(),
            standstills: still
                .map(|still| StandstillReport {
                    label: list[still.port].label.clone(),
                    ratio: Exact::from(&still.ratio),
                    motor: is_motor(&list[still.port]),
                })
                .collect(),
            balanced: stand.is_balanced(),
            electric: stand.electric(),
            battery: stand.ports().battery.map(|power| power * 1000.0),
            most: MOST,
        }
    }
}

impl PortReport {
    /// What it is, without what it does.
    fn of(train: &Train, port: &Port) -> Self {
        let machine = port.machine;
        let is_motor = machine.filter(|machine| machine.kind == MachineKind::Motor);
        let known = machine.map(|machine| {
            [
                ("speed", machine.speed),
                ("torque", machine.torque),
                ("efficiency", machine.efficiency),
            ]
        });
        let assumed = known.into_iter().flatten();
        Self {
            role: match port.role {
                Role::Input => "input",
                Role::Source => "source",
                Role::Output => "output",
                Role::Further => "further",
            },
            shaft: train.scenario().shafts[port.shaft].id.clone(),
            label: port.label.clone(),
            kind: machine.map(|machine| match machine.kind {
                MachineKind::Engine => "engine",
                MachineKind::Motor => "motor",
            }),
            most_speed: machine.map(|machine| machine.speed.value),
            most_torque: machine.map(|machine| machine.torque.value),
            most_power: machine.and_then(|machine| Some(machine.power? * 1000.0)),
            efficiency: is_motor.map(|machine| machine.efficiency.value),
            assumed: assumed
                .filter(|(_, known)| known.is_assumed)
                .map(|(name, _)| name)
                .collect(),
            speed: 0.0,
            torque: 0.0,
            power: 0.0,
            does: "idle",
            beyond: Vec::new(),
            given: false,
            formula: Vec::new(),
        }
    }
}

fn does(stand: &Stand, port: usize, largest: f64) -> &'static str {
    let torques = stand.torques();
    let most = torques.iter().fold(0.0_f64, |most, x| most.max(x.abs()));
    let fastest = stand
        .turns()
        .iter()
        .fold(0.0_f64, |most, x| most.max(x.abs()));
    let speed = stand.turns()[stand.ports().list[port].shaft];
    let power = stand.power(port);
    match () {
        () if torques[port].abs() <= NOTHING * most => "idle",
        () if speed.abs() <= NOTHING * fastest || power.abs() <= NOTHING * largest => "still",
        () if power > 0.0 => "feeds",
        () => "fed",
    }
}

/// What stands at a shaft, or what the shaft is called.
fn shaft_label(train: &Train, stand: &Stand, shaft: usize) -> String {
    let list = stand.ports().list.iter();
    let mut sources = list.filter(|port| port.shaft == shaft && port.machine.is_some());
    match (sources.next(), shaft == train.output()) {
        (Some(source), false) => source.label.clone(),
        _ => train.scenario().shafts[shaft].label.clone(),
    }
}

impl RegionReport {
    /// That of a stand, with the speeds of the shafts that are kept.
    pub fn of(train: &Train, stand: &Stand) -> Self {
        let output = train.output();
        // The output's own speed is what the region goes over; the others stay, the kept ones first.
        let mut given: Vec<(usize, f64)> = stand.given();
        given.retain(|&(shaft, _)| shaft != output);
        let mut ports = stand.ports().clone();
        if stand.is_balanced() == Some(true) {
            ports.battery = Some(0.0);
        }
        let region = Region::of(train, stand.applied(), &ports, &given);
        let (refused, about) = match region {
            Ok(region) => {
                let edges = region.edges.iter();
                return Self {
                    edges: edges
                        .map(|edge| [edge.speed, edge.least, edge.most])
                        .collect(),
                    refused: None,
                    about: None,
                };
            }
            Err(NoRegion::Held) => ("held", None),
            Err(NoRegion::Free(port)) => ("free", Some(port)),
            Err(NoRegion::TooFast(port)) => ("too-fast", Some(port)),
            Err(NoRegion::Empty) => ("empty", None),
            Err(NoRegion::Unlimited) => ("unlimited", None),
        };
        Self {
            edges: Vec::new(),
            refused: Some(refused),
            about: about.map(|port: usize| stand.ports().list[port].label.clone()),
        }
    }
}

impl SharesReport {
    /// Those of a stand.
    pub fn of(train: &Train, stand: &Stand) -> Self {
        let shares = Shares::of(train, stand.applied(), stand.ports());
        let refused = match shares {
            Ok(shares) => {
                let points = shares.points.into_iter();
                return Self {
                    points: points
                        .map(|share| SharePoint {
                            ratio: share.ratio,
                            powers: share.powers,
                            efficiency: share.efficiency,
                        })
                        .collect(),
                    balanced: shares.is_balanced,
                    refused: None,
                };
            }
            Err(NoShares::Freedom(_)) => "freedom",
            Err(NoShares::Torques(_)) => "torques",
            Err(NoShares::Idle) => "idle",
        };
        Self {
            points: Vec::new(),
            balanced: false,
            refused: Some(refused),
        }
    }
}

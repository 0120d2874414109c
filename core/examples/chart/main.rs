//! Prints what a gear train does: its range chart, one combination, or all combinations.
//!
//! `cargo run -p levertrain-core --example chart -- FILE [--apply ID,ID…] [--all] [--torque N·m]
//! [--json]`
//!
//! Clutch capacity, where the file has friction data, is for the input torque, 100 N·m unless
//! said otherwise: for learning and early layout, not a strength rating. Losses are for the usual
//! mesh efficiency and the input driving the load.
//!
//! Where the scenario has an engine and a load, the operating point is printed as well, at
//! `[--pedal 0…1] [--grade RISE/RUN] [--lockup] [--mesh EFFICIENCY]`.
//!
//! Exits with 2 and one line on bad input.
#![allow(clippy::print_stdout, reason = "printing is what this example is for")]

mod text;

use std::process::ExitCode;

use levertrain_core::operating::Conditions;
use levertrain_core::report::{
    CapacityReport, ChartReport, CombinationReport, Exact, Explanation, LossReport,
    OperatingReport, RangeReport,
};
use levertrain_core::{Combination, Duty, LossModel, RangeChart, Train};
use serde::Serialize;

const USAGE: &str = "usage: chart FILE [--apply ID,ID…] [--all] [--torque N·m] [--json] \
    [--pedal 0…1] [--grade RISE/RUN] [--lockup] [--mesh EFFICIENCY]";

/// Input torque in N·m where none is given: the page's.
const TORQUE: f64 = 100.0;

fn main() -> ExitCode {
    let arguments: Result<Vec<String>, _> = std::env::args_os()
        .skip(1)
        .map(std::ffi::OsString::into_string)
        .collect();
    let outcome = arguments
        .map_err(|argument| format!("{} is not UTF-8; {USAGE}", argument.display()))
        .and_then(|arguments| run(arguments.into_iter()));
    match outcome {
        Ok(text) => {
            print!("{text}");
            ExitCode::SUCCESS
        }
        Err(message) => {
            eprintln!("chart: {message}");
            ExitCode::from(2)
        }
    }
}

#[derive(Default)]
struct Options {
    file: Option<String>,
    apply: Option<Vec<String>>,
    all: bool,
    torque: Option<f64>,
    json: bool,
    /// For the operating point, and the first option that asks for one.
    conditions: Conditions,
    asked: Option<String>,
}

impl Options {
    fn parse(arguments: impl Iterator<Item = String>) -> Result<Self, String> {
        let mut options = Self::default();
        let mut arguments = arguments;
        while let Some(argument) = arguments.next() {
            match argument.as_str() {
                "--all" => options.all = true,
                "--json" => options.json = true,
                "--apply" => {
                    let ids = arguments
                        .next()
                        .ok_or(format!("--apply needs ids; {USAGE}"))?;
                    let ids = ids
                        .split(',')
                        .filter(|id| !id.is_empty())
                        .map(str::to_owned);
                    options.apply = Some(ids.collect());
                }
                "--torque" => {
                    let text = arguments.next().unwrap_or_default();
                    let torque = text.parse().ok();
                    let torque = torque.filter(|torque: &f64| *torque >= 0.0 && torque.is_finite());
                    options.torque =
                        Some(torque.ok_or(format!("--torque needs N·m of 0 or more; {USAGE}"))?);
                }
                "--lockup" => {
                    options.conditions.lockup = true;
                    options.asked.get_or_insert(argument);
                }
                "--pedal" | "--grade" | "--mesh" => {
                    let number = arguments.next().and_then(|text| text.parse().ok());
                    let number: f64 =
                        number.ok_or(format!("{argument} needs a number; {USAGE}"))?;
                    match argument.as_str() {
                        "--pedal" => options.conditions.pedal = number,
                        "--grade" => options.conditions.grade = number,
                        _ => options.conditions.mesh_efficiency = number,
                    }
                    options.asked.get_or_insert(argument);
                }
                flag if flag.starts_with('-') => {
                    return Err(format!("unknown option {flag}; {USAGE}"));
                }
                _ if options.file.is_some() => {
                    return Err(format!("only one file at a time; {USAGE}"));
                }
                _ => options.file = Some(argument),
            }
        }
        if options.all && options.apply.is_some() {
            return Err(format!("--all and --apply exclude each other; {USAGE}"));
        }
        if let Err(fault) = options.conditions.checked() {
            return Err(fault.to_string());
        }
        Ok(options)
    }
}

fn run(arguments: impl Iterator<Item = String>) -> Result<String, String> {
    let options = Options::parse(arguments)?;
    let file = options.file.ok_or(USAGE)?;
    let content = std::fs::read_to_string(&file).map_err(|error| format!("{file}: {error}"))?;
    let train =
        Train::parse(&content).map_err(|faults| format!("{file}: {}", one_line(&faults)))?;
    let torque = options.torque.unwrap_or(TORQUE);
    let conditions = &options.conditions;
    if let (Some(flag), None) = (&options.asked, &train.scenario().engine) {
        let problem = "takes an engine and a load, and it has none";
        return Err(format!("{file}: {flag} {problem}"));
    }

    if let Some(ids) = options.apply {
        let applied = train.element_set(ids.iter().map(String::as_str));
        let applied = applied.map_err(|faults| one_line(&faults))?;
        let combination = train.settle(applied, Duty::Drive).combination;
        let single = Single::of(&combination, torque, conditions);
        return if options.json {
            json(&single)
        } else {
            Ok(text::single(single))
        };
    }
    if options.all {
        let mut reports = Vec::new();
        train.for_each_combination(|combination| {
            reports.push(CombinationReport::from(combination));
        });
        return if options.json {
            json(&reports)
        } else {
            Ok(text::all(&reports))
        };
    }
    let chart = Chart::of(&train.range_chart(), torque, conditions);
    if options.json {
        json(&chart)
    } else {
        Ok(text::range_chart(&train, &chart))
    }
}

/// The first fault, and how many more there are.
fn one_line(faults: &[levertrain_core::Fault]) -> String {
    match faults {
        [] => String::new(),
        [one] => one.to_string(),
        [first, rest @ ..] => format!("{first} (and {} more)", rest.len()),
    }
}

/// The range chart with what it costs and what it holds.
#[derive(Serialize)]
struct Chart {
    ranges: Vec<Row>,
    spread: Option<Exact>,
}

#[derive(Serialize)]
struct Row {
    #[serde(flatten)]
    range: RangeReport,
    #[serde(flatten)]
    strain: Strain,
}

impl Chart {
    fn of(chart: &RangeChart<'_>, torque: f64, conditions: &Conditions) -> Self {
        let report = ChartReport::from(chart);
        let strains = chart.ranges.iter();
        let strains = strains.map(|entry| Strain::of(&entry.combination, torque, conditions));
        Self {
            ranges: report
                .ranges
                .into_iter()
                .zip(strains)
                .map(|(range, strain)| Row { range, strain })
                .collect(),
            spread: report.spread,
        }
    }
}

/// Losses, how the applied elements hold at the input torque, and the operating point; nothing
/// of that where the scenario has no friction data, or no engine.
#[derive(Serialize)]
struct Strain {
    losses: LossReport,
    capacity: Option<CapacityReport>,
    operating: Option<OperatingReport>,
}

impl Strain {
    fn of(combination: &Combination<'_>, torque: f64, conditions: &Conditions) -> Self {
        Self {
            losses: LossReport::of(combination, &LossModel::default()),
            capacity: CapacityReport::of(combination, torque),
            operating: OperatingReport::of(combination, conditions),
        }
    }
}

/// A combination, its explanation, losses and capacity as one object.
#[derive(Serialize)]
struct Single {
    #[serde(flatten)]
    combination: CombinationReport,
    #[serde(flatten)]
    explanation: Explanation,
    #[serde(flatten)]
    strain: Strain,
}

impl Single {
    fn of(combination: &Combination<'_>, torque: f64, conditions: &Conditions) -> Self {
        Self {
            combination: combination.into(),
            explanation: combination.into(),
            strain: Strain::of(combination, torque, conditions),
        }
    }
}

fn json(value: &impl Serialize) -> Result<String, String> {
    let text = serde_json::to_string_pretty(value).map_err(|error| error.to_string())?;
    Ok(text + "\n")
}

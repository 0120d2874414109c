//! Prints what a gear train does: its range chart, one combination, or all combinations.
//!
//! `cargo run -p levertrain-core --example chart -- FILE [--apply ID,ID…] [--all] [--torque N·m]
//! [--json] [--language LANGUAGE]`
//!
//! Clutch capacity, where the file has friction data, is for the input torque, 100 N·m unless
//! said otherwise: for learning and early layout, not a strength rating. Losses are for the input
//! driving the load, at the usual mesh efficiency or that of `[--mesh EFFICIENCY]`.
//!
//! Where the scenario has an engine and a load, the operating point is printed as well, at
//! `[--pedal 0…1] [--grade RISE/RUN] [--lockup] [--mesh EFFICIENCY]`.
//!
//! Exits with 2 and one line on bad input.

mod input;
mod text;

use std::io::{self, BufWriter, Write};
use std::process::ExitCode;

use levertrain_core::operating::Conditions;
use levertrain_core::report::{
    CapacityReport, ChartReport, CombinationReport, Exact, Explanation, LossReport,
    OperatingReport, RangeReport, WorkingReport,
};
use levertrain_core::scenario::limits::FILE_BYTES;
use levertrain_core::words::{Catalogue, LANGUAGES, Values, said, word};
use levertrain_core::{Combination, Duty, LossModel, RangeChart, Train};
use serde::ser::SerializeSeq;
use serde::{Serialize, Serializer};

/// Input torque in N·m where none is given: the page's.
const TORQUE: f64 = 100.0;

fn main() -> ExitCode {
    let arguments: Result<Vec<String>, _> = std::env::args_os()
        .skip(1)
        .map(std::ffi::OsString::into_string)
        .collect();
    let mut out = BufWriter::new(io::stdout().lock());
    let outcome = arguments
        .map_err(|argument| {
            let argument = argument.display().to_string();
            misused("cli-argument", &[("argument", &argument)])
        })
        .and_then(|arguments| run(arguments.into_iter(), &mut out))
        .and_then(|()| out.flush().map_err(unwritten));
    match outcome {
        Ok(()) => ExitCode::SUCCESS,
        Err(message) => {
            eprintln!("chart: {message}");
            ExitCode::from(2)
        }
    }
}

fn unwritten(error: io::Error) -> String {
    said("cli-unwritten", &[("error", &error.to_string())])
}

/// Has all be said in a language from here on.
fn speak(code: &str) -> Result<(), String> {
    let Some(catalogue) = Catalogue::of_language(code) else {
        let names = LANGUAGES.join(", ");
        let values = [("found", code), ("names", &*names)];
        return Err(misused("cli-language", &values));
    };
    catalogue.speak();
    Ok(())
}

/// What is wrong with the arguments, by its message, and how they are meant.
fn misused(message: &str, values: Values<'_>) -> String {
    let what = said(message, values);
    let values = [("what", &*what), ("usage", word("cli-usage"))];
    said("cli-misused", &values)
}

#[derive(Default)]
struct Options {
    file: Option<String>,
    apply: Option<Vec<String>>,
    all: bool,
    help: bool,
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
                "--help" | "-h" => options.help = true,
                "--json" => options.json = true,
                "--apply" => {
                    let ids = arguments
                        .next()
                        .ok_or_else(|| misused("cli-needs-ids", &[]))?;
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
                    options.torque = Some(torque.ok_or_else(|| misused("cli-needs-torque", &[]))?);
                }
                "--language" => speak(&arguments.next().unwrap_or_default())?,
                "--lockup" => {
                    options.conditions.lockup = true;
                    options.asked.get_or_insert(argument);
                }
                "--pedal" | "--grade" | "--mesh" => {
                    let number = arguments.next().and_then(|text| text.parse().ok());
                    let number: f64 = number
                        .ok_or_else(|| misused("cli-needs-number", &[("option", &argument)]))?;
                    match argument.as_str() {
                        "--pedal" => options.conditions.pedal = number,
                        "--grade" => options.conditions.grade = number,
                        _ => options.conditions.mesh_efficiency = number,
                    }
                    // Losses are printed without an engine as well.
                    if argument != "--mesh" {
                        options.asked.get_or_insert(argument);
                    }
                }
                flag if flag.starts_with('-') => {
                    return Err(misused("cli-unknown-option", &[("option", flag)]));
                }
                _ if options.file.is_some() => {
                    return Err(misused("cli-one-file", &[]));
                }
                _ => options.file = Some(argument),
            }
        }
        if options.all && options.apply.is_some() {
            return Err(misused("cli-all-or-apply", &[]));
        }
        if let Err(problem) = options.conditions.checked() {
            return Err(problem.to_string());
        }
        Ok(options)
    }
}

fn run(arguments: impl Iterator<Item = String>, out: &mut impl Write) -> Result<(), String> {
    let options = Options::parse(arguments)?;
    if options.help {
        return writeln!(out, "{}", word("cli-usage")).map_err(unwritten);
    }
    let file = options.file.ok_or(word("cli-usage"))?;
    let content = input::read(&file, FILE_BYTES).map_err(|problem| format!("{file}: {problem}"))?;
    let train =
        Train::parse(&content).map_err(|problems| format!("{file}: {}", one_line(&problems)))?;
    let torque = options.torque.unwrap_or(TORQUE);
    let conditions = &options.conditions;
    if let (Some(flag), None) = (&options.asked, &train.scenario().engine) {
        let values = [("file", &*file), ("option", flag)];
        return Err(said("cli-no-engine", &values));
    }
    if options.all {
        return all(&train, options.json, out).map_err(unwritten);
    }

    let text = if let Some(ids) = options.apply {
        let applied = train.element_set(ids.iter().map(String::as_str));
        let applied = applied.map_err(|problems| one_line(&problems))?;
        let combination = train.settle(applied, Duty::Drive).combination;
        let single = Single::of(&combination, torque, conditions);
        if options.json {
            json(&single)?
        } else {
            text::single(&train, single)
        }
    } else {
        let chart = Chart::of(&train.range_chart(), torque, conditions);
        if options.json {
            json(&chart)?
        } else {
            text::range_chart(&train, &chart)
        }
    };
    out.write_all(text.as_bytes()).map_err(unwritten)
}

/// Writes every combination as soon as it is solved: 65 536 of them would fill much memory.
fn all(train: &Train, json: bool, out: &mut impl Write) -> io::Result<()> {
    // The walk cannot be stopped; what is left after an error is solved and not written.
    let mut done = Ok(());
    if !json {
        out.write_all(text::all_heading().as_bytes())?;
        train.for_each_combination(|combination| {
            if done.is_ok() {
                done = out.write_all(text::all_line(&combination.into()).as_bytes());
            }
        });
        return done;
    }
    let mut serializer = serde_json::Serializer::pretty(&mut *out);
    let mut list = serializer.serialize_seq(None)?;
    let mut done = Ok(());
    train.for_each_combination(|combination| {
        if done.is_ok() {
            done = list.serialize_element(&CombinationReport::from(combination));
        }
    });
    done?;
    list.end()?;
    out.write_all(b"\n")
}

/// The first problem, and how many more there are.
fn one_line(problems: &[levertrain_core::Problem]) -> String {
    match problems {
        [] => String::new(),
        [one] => one.on_a_terminal(),
        [first, rest @ ..] => {
            let (first, more) = (first.on_a_terminal(), rest.len().to_string());
            said("cli-and-more", &[("first", &first), ("more", &more)])
        }
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
    strain: UnderLoad,
}

impl Chart {
    fn of(chart: &RangeChart<'_>, torque: f64, conditions: &Conditions) -> Self {
        let report = ChartReport::from(chart);
        let strains = chart.ranges.iter();
        let strains = strains.map(|entry| UnderLoad::of(&entry.combination, torque, conditions));
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
struct UnderLoad {
    losses: LossReport,
    capacity: Option<CapacityReport>,
    operating: Option<OperatingReport>,
}

impl UnderLoad {
    fn of(combination: &Combination<'_>, torque: f64, conditions: &Conditions) -> Self {
        let losses = LossModel {
            mesh_efficiency: conditions.mesh_efficiency,
            ..LossModel::default()
        };
        Self {
            losses: LossReport::of(combination, &losses),
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
    working: WorkingReport,
    #[serde(flatten)]
    strain: UnderLoad,
}

impl Single {
    fn of(combination: &Combination<'_>, torque: f64, conditions: &Conditions) -> Self {
        Self {
            combination: combination.into(),
            explanation: combination.into(),
            working: WorkingReport::of(combination),
            strain: UnderLoad::of(combination, torque, conditions),
        }
    }
}

fn json(value: &impl Serialize) -> Result<String, String> {
    let text = serde_json::to_string_pretty(value).map_err(|error| error.to_string())?;
    Ok(text + "\n")
}

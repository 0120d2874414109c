//! Edits of what stands around the train: engine, torque converter and load.

use crate::base::problem::Problem;
use crate::base::said::word;
use crate::json::{Read, Value, one_of};
use crate::model::curve::Curve;
use crate::model::scenario::{Converter, Engine, Load, Scenario};

/// What stands around a train.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
#[cfg_attr(feature = "types", derive(ts_rs::TS))]
#[cfg_attr(feature = "types", ts(rename_all = "kebab-case"))]
pub enum Part {
    /// What drives the input.
    Engine,
    /// The torque converter between the two.
    Converter,
    /// What holds the output back.
    Load,
}

/// Rows of numbers, as the file names them.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
#[cfg_attr(feature = "types", derive(ts_rs::TS))]
#[cfg_attr(feature = "types", ts(rename_all = "kebab-case"))]
pub enum Rows {
    /// Points of the engine at full pedal.
    Full,
    /// Those with the pedal released.
    Motoring,
    /// Points of the converter.
    Table,
    /// The load, one row: its terms in the order of the file.
    Load,
}

impl Read for Part {
    fn read(value: Value, place: &str, problems: &mut Vec<Problem>) -> Option<Self> {
        let words = [
            ("engine", Self::Engine),
            ("converter", Self::Converter),
            ("load", Self::Load),
        ];
        one_of(&value, place, &words, problems)
    }
}

impl Read for Rows {
    fn read(value: Value, place: &str, problems: &mut Vec<Problem>) -> Option<Self> {
        let words = [
            ("full", Self::Full),
            ("motoring", Self::Motoring),
            ("table", Self::Table),
            ("load", Self::Load),
        ];
        one_of(&value, place, &words, problems)
    }
}

/// Puts a part with usual data around a train that has none, or takes it away. Engine and load are there
/// together or not at all, and a converter only with them.
pub(super) fn surround(scenario: &mut Scenario, part: Part, there: bool) {
    if !there {
        scenario.converter = None;
        if part != Part::Converter {
            scenario.engine = None;
            scenario.load = None;
        }
        return;
    }
    scenario.engine.get_or_insert_with(usual_engine);
    scenario.load.get_or_insert_with(usual_load);
    if part == Part::Converter {
        scenario.converter.get_or_insert_with(usual_converter);
    }
}

// Invented numbers to begin with.

fn usual_engine() -> Engine {
    Engine {
        label: word("edit-engine").to_owned(),
        full: vec![[800.0, 120.0], [2400.0, 200.0], [6000.0, 150.0]],
        motoring: vec![[800.0, -15.0], [6000.0, -50.0]],
    }
}

fn usual_converter() -> Converter {
    let table = [
        [0.0, 2.0, 150.0],
        [0.6, 1.35, 158.0],
        [0.87, 1.0, 195.0],
        [0.97, 1.0, 350.0],
    ];
    Converter {
        label: word("edit-converter").to_owned(),
        table: table.to_vec(),
    }
}

fn usual_load() -> Load {
    Load {
        label: word("edit-load").to_owned(),
        constant: 12.0,
        linear: 0.001,
        quadratic: 3e-6,
        weight: 1200.0,
    }
}

/// Calls a part something else.
pub(super) fn label(scenario: &mut Scenario, part: Part, label: &str) -> Result<(), Problem> {
    let (place, known) = match part {
        Part::Engine => ("engine", scenario.engine.as_mut().map(|x| &mut x.label)),
        Part::Converter => (
            "converter",
            scenario.converter.as_mut().map(|x| &mut x.label),
        ),
        Part::Load => ("load", scenario.load.as_mut().map(|x| &mut x.label)),
    };
    let changed = known.map(|known| label.clone_into(known));
    changed.ok_or_else(|| not_there(place))
}

/// Changes a number of a row. Both curves of an engine begin and end at the same speeds, so where one
/// of these is changed the other curve goes along.
pub(super) fn amount(
    scenario: &mut Scenario,
    rows: Rows,
    at: usize,
    column: usize,
    amount: f64,
) -> Result<(), Problem> {
    let number = number(scenario, rows, at, column);
    *number.ok_or_else(|| not_there(rows.place()))? = amount;
    if let (Some(Engine { full, motoring, .. }), 0) = (&mut scenario.engine, column) {
        let (own, other) = match rows {
            Rows::Full => (full, motoring),
            Rows::Motoring => (motoring, full),
            Rows::Table | Rows::Load => return Ok(()),
        };
        let end = match at {
            0 => other.first_mut(),
            _ if at + 1 == own.len() => other.last_mut(),
            _ => None,
        };
        if let Some(end) = end {
            end[0] = amount;
        }
    }
    Ok(())
}

fn number(scenario: &mut Scenario, rows: Rows, at: usize, column: usize) -> Option<&mut f64> {
    match rows {
        Rows::Full => scenario.engine.as_mut()?.full.get_mut(at)?.get_mut(column),
        Rows::Motoring => {
            let engine = scenario.engine.as_mut()?;
            engine.motoring.get_mut(at)?.get_mut(column)
        }
        Rows::Table => {
            let converter = scenario.converter.as_mut()?;
            converter.table.get_mut(at)?.get_mut(column)
        }
        Rows::Load => {
            let load = scenario.load.as_mut().filter(|_| at == 0)?;
            match column {
                0 => Some(&mut load.constant),
                1 => Some(&mut load.linear),
                2 => Some(&mut load.quadratic),
                3 => Some(&mut load.weight),
                _ => None,
            }
        }
    }
}

/// Puts a point between the one at a place in the list and the one before it, where the curve goes
/// through already; or takes the one at the place away. A curve of an engine keeps two of them, and where it
/// then begins or ends the other one does as well; the first row of a converter is stall, which stays.
pub(super) fn point(
    scenario: &mut Scenario,
    rows: Rows,
    at: usize,
    there: bool,
) -> Result<(), Problem> {
    let (engine, converter) = (scenario.engine.as_mut(), scenario.converter.as_mut());
    let changed = match rows {
        Rows::Full | Rows::Motoring => engine.and_then(|Engine { full, motoring, .. }| {
            let (own, other) = match rows {
                Rows::Full => (full, motoring),
                _ => (motoring, full),
            };
            if there {
                return put(own, at);
            }
            take(own, at)?;
            cut(other, own.first()?[0], own.last()?[0]);
            Some(())
        }),
        Rows::Table => converter.and_then(|Converter { table, .. }| match (there, at) {
            (true, _) => put(table, at),
            (false, 0) => None,
            (false, _) => take(table, at),
        }),
        Rows::Load => None,
    };
    changed.ok_or_else(|| not_there(rows.place()))
}

/// What is put in is the mean of two rows: speeds and torques are linear there. So is not the capacity
/// factor in a third column, but the torque that goes with its square turned round.
fn put<const N: usize>(rows: &mut Vec<[f64; N]>, at: usize) -> Option<()> {
    let mut row = *rows.get(at.checked_sub(1)?)?;
    let after = rows.get(at)?;
    for (column, (number, after)) in row.iter_mut().zip(after).enumerate() {
        *number = match column {
            2 => ((number.powi(-2) + after.powi(-2)) / 2.0).sqrt().recip(),
            _ => (*number + after) / 2.0,
        };
    }
    rows.insert(at, row);
    Some(())
}

/// Takes a row away; two of them stay.
fn take<const N: usize>(rows: &mut Vec<[f64; N]>, at: usize) -> Option<()> {
    (rows.len() > 2 && at < rows.len()).then(|| {
        rows.remove(at);
    })
}

/// Has a curve begin and end at these speeds, where it goes through already.
fn cut(curve: &mut Vec<[f64; 2]>, first: f64, last: f64) {
    let whole = Curve::of(curve.clone());
    let end = |speed| [speed, whole.value(speed)];
    let ends = [end(first), end(last)];
    curve.retain(|[speed, _]| first < *speed && *speed < last);
    curve.insert(0, ends[0]);
    curve.push(ends[1]);
}

impl Rows {
    /// Where in a file they are.
    fn place(self) -> &'static str {
        match self {
            Self::Full => "engine.full",
            Self::Motoring => "engine.motoring",
            Self::Table => "converter.table",
            Self::Load => "load",
        }
    }
}

fn not_there(place: &str) -> Problem {
    Problem::of(place, ("problem-not-there", &[]), ("fix-not-there", &[]))
}

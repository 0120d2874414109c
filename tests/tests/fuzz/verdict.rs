//! What must hold for any text at all.

use levertrain_core::json::{Spot, spot};
use levertrain_core::operating::{Conditions, Operating};
use levertrain_core::report::{ChartReport, Explanation, WorkingReport, warnings};
use levertrain_core::{ElementSet, Problem, Train};

/// More problems than this at once help nobody.
pub const MOST_PROBLEMS: usize = 100;
/// A message is to be read on one screen, at a terminal or under a drawing.
pub const MOST_CHARS: usize = 500;

/// Reads a text and, if it makes a train, asks it everything; or says what is wrong with how it
/// was refused.
pub fn judge(text: &str) -> Result<Option<Train>, String> {
    match Train::parse(text) {
        Ok(train) => {
            ask_everything(&train)?;
            Ok(Some(train))
        }
        Err(problems) => {
            check_problems(&problems)?;
            check_spots(text, &problems)?;
            Ok(None)
        }
    }
}

fn ask_everything(train: &Train) -> Result<(), String> {
    let _ = ChartReport::from(&train.range_chart());
    let _ = warnings(train);
    let elements = train.scenario().elements.len();
    let all: ElementSet = (0..elements).collect();
    let every_other: ElementSet = (0..elements).step_by(2).collect();
    for applied in [ElementSet::NONE, every_other, all] {
        let combination = train.solve(applied);
        let _ = Explanation::from(&combination);
        let _ = WorkingReport::of(&combination);
    }
    let ranges = (0..train.scenario().ranges.len()).map(|range| train.range(range));
    for applied in ranges {
        for (pedal, grade, lockup) in [(0.0, -0.2, true), (0.1, 0.0, false), (1.0, 0.1, false)] {
            let conditions = Conditions {
                pedal,
                grade,
                lockup,
                ..Conditions::default()
            };
            check_operating(Operating::of(&train.solve(applied), &conditions))?;
        }
    }
    Ok(())
}

/// Where tables are strange, points may be few, but they are numbers.
fn check_operating(found: Option<Operating>) -> Result<(), String> {
    let Some(Operating::Solved { points, stall, .. }) = found else {
        return Ok(());
    };
    for point in points.iter().chain(&stall) {
        let numbers = [
            point.engine_speed,
            point.engine_torque,
            point.speed_ratio,
            point.torque_ratio,
            point.output_speed,
            point.output_torque,
        ];
        if !numbers.iter().all(|number| number.is_finite()) {
            return Err(format!("not a number: {point:?}"));
        }
    }
    Ok(())
}

/// At least one problem, not too many, each with three readable parts.
pub fn check_problems(problems: &[Problem]) -> Result<(), String> {
    if problems.is_empty() {
        return Err("refused without a problem".to_owned());
    }
    if problems.len() > MOST_PROBLEMS {
        return Err(format!(
            "{} problems, more than {MOST_PROBLEMS}; the first: {}",
            problems.len(),
            start_of(&problems[0].to_string())
        ));
    }
    for problem in problems {
        let Problem { place, what, fix } = problem;
        for (name, part) in [("place", place), ("what", what), ("fix", fix)] {
            if part.trim().is_empty() {
                return Err(format!("no {name} in {}", start_of(&problem.to_string())));
            }
        }
        let message = problem.to_string();
        let length = message.chars().count();
        if length > MOST_CHARS {
            return Err(format!(
                "{length} characters, more than {MOST_CHARS}: {}",
                start_of(&message)
            ));
        }
        if message.chars().any(char::is_control) {
            return Err(format!(
                "control characters, so not one line: {:?}",
                start_of(&message)
            ));
        }
    }
    Ok(())
}

/// Each problem is somewhere in the text.
pub fn check_spots(text: &str, problems: &[Problem]) -> Result<(), String> {
    for Problem { place, .. } in problems {
        let Spot { line, column } = spot(text, place);
        let own = line.checked_sub(1).and_then(|at| text.split('\n').nth(at));
        let columns = own.map_or(0, |own| own.encode_utf16().count() + 1);
        if column == 0 || column > columns {
            return Err(format!("{place} is said to be in {line}, {column}"));
        }
    }
    Ok(())
}

fn start_of(message: &str) -> String {
    message.chars().take(120).collect()
}

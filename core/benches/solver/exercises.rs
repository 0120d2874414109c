//! Questions about the hardest scenarios: what asking, setting and marking one takes of each kind.

use std::hint::black_box;
use std::time::{Duration, Instant};

use levertrain_core::Train;
use levertrain_core::exercise::{
    FORMAT, Kind, MOST_TASKS, QuestionReport, Sheet, SheetReport, Task,
};
use serde_json::json;

use crate::worst;

/// Prints how long each kind of question takes at most: asked, solved and marked; and a full sheet of the slowest.
///
/// # Errors
/// A scenario that does not read.
pub fn report_worst() -> Result<(), String> {
    let names: Vec<&str> = Kind::ALL.iter().map(|(name, _)| *name).collect();
    println!(
        "\n| worst allowed: ask, solve, mark in ms | {} | which kinds there are | sheet of {MOST_TASKS} |",
        names.join(" | ")
    );
    println!("| --- |{}", " --- |".repeat(names.len() + 2));
    for worst in worst::files() {
        let train = Train::parse(&worst.text)
            .map_err(|problems| format!("{}: {problems:?}", worst.name))?;
        let mut cells = Vec::new();
        let mut slowest: Option<(Duration, Task)> = None;
        for (_, kind) in Kind::ALL {
            let (asking, task) = timed(|| Task::ask(&train, *kind, 0));
            let Some(task) = task else {
                cells.push(format!("{}, none", millis(asking)));
                continue;
            };
            let (solving, answer) = timed(|| task.solve(&train).unwrap_or_default());
            let (marking, _) = timed(|| task.mark(&train, &answer));
            cells.push([asking, solving, marking].map(millis).join(", "));
            let (showing, _) = timed(|| QuestionReport::of(&train, &task));
            // Ratios are looked for together.
            let time = if *kind == Kind::Reach {
                showing
            } else {
                solving + showing
            };
            if slowest.as_ref().is_none_or(|(longest, _)| time > *longest) {
                slowest = Some((time, task));
            }
        }
        let (offering, _) = timed(|| Kind::offered(&train));
        cells.push(millis(offering));
        let tasks =
            slowest.map(|(_, task)| vec![QuestionReport::of(&train, &task).task; MOST_TASKS]);
        let text = json!({"format": FORMAT, "title": "Worst", "tasks": tasks.unwrap_or_default()})
            .to_string();
        let (reading, _) = timed(|| {
            let sheet = Sheet::parse(&train, &text);
            sheet.map(|sheet| SheetReport::of(&train, &sheet))
        });
        cells.push(millis(reading));
        println!("| {} | {} |", worst.name, cells.join(" | "));
    }
    Ok(())
}

fn timed<T>(work: impl Fn() -> T) -> (Duration, T) {
    let start = Instant::now();
    let made = black_box(work());
    (start.elapsed(), made)
}

fn millis(time: Duration) -> String {
    format!("{:.1}", time.as_secs_f64() * 1e3)
}

//! A sheet of exercises: tasks about one train, as a file.

use levertrain_exact::Fraction;

use super::reach;
use super::read::{ranges_at, read};
use super::task::{Kind, MOST_ONE_WAYS, Task};
use crate::base::problem::{MOST_PROBLEMS, Problem};
use crate::json::{Fields, Value, is_format, strict};
use crate::model::scenario::limits;
use crate::train::Train;

/// The format of sheets that is read.
pub const FORMAT: u64 = 1;
/// Most tasks of a sheet.
pub const MOST_TASKS: usize = 40;

/// Tasks about one train.
#[derive(Debug, Clone, PartialEq)]
pub struct Sheet {
    /// What people call it.
    pub title: String,
    /// Which of the scenarios it is about, where it is one of ours; the page opens it first.
    pub scenario: Option<String>,
    /// Indices of the ranges that a lesson walks through before it asks, in order.
    pub walk: Vec<usize>,
    /// In the order in which they are set.
    pub tasks: Vec<Task>,
}

impl Sheet {
    /// Reads a sheet about a train, such as `{"format": 1, "title": "First steps", "tasks": [{"task": "reach",
    /// "ratio": "27/7"}]}`. Schema: `scenarios/exercises/schema.json`.
    ///
    /// # Errors
    /// Every problem of the text: that it is no JSON, fields that are missing, unknown or of the wrong kind,
    /// ids that the train does not have, and tasks that have no answer in this train.
    pub fn parse(train: &Train, text: &str) -> Result<Self, Vec<Problem>> {
        if text.len() > limits::FILE_BYTES {
            let found = text.len().to_string();
            let most = limits::FILE_BYTES.to_string();
            return Err(vec![Problem::of(
                "",
                ("problem-too-many-bytes", &[("found", &found)]),
                ("fix-fewer-bytes", &[("most", &most)]),
            )]);
        }
        manageable(train)?;
        let value = strict(text).map_err(|problem| vec![problem])?;
        let mut problems = Vec::new();
        let sheet = outermost(train, value, &mut problems);
        problems.truncate(MOST_PROBLEMS);
        sheet.filter(|_| problems.is_empty()).ok_or(problems)
    }
}

impl Task {
    /// Reads one task about a train.
    ///
    /// # Errors
    /// As [`Sheet::parse`], but for whether it has an answer: that is looked for only once, when it is set.
    pub fn parse(train: &Train, text: &str) -> Result<Self, Vec<Problem>> {
        let value = strict(text).map_err(|problem| vec![problem])?;
        let mut problems = Vec::new();
        let task = read(train, value, "", &mut problems);
        task.filter(|_| problems.is_empty()).ok_or(problems)
    }

    /// The same of a task that is set.
    ///
    /// # Errors
    /// As [`Sheet::parse`].
    pub fn set(train: &Train, text: &str) -> Result<Self, Vec<Problem>> {
        manageable(train)?;
        let task = Self::parse(train, text)?;
        match answered(train, std::slice::from_ref(&task))[..] {
            [false] => Err(vec![no_answer("")]),
            _ => Ok(task),
        }
    }
}

/// Refuses trains that questions would take too long about.
fn manageable(train: &Train) -> Result<(), Vec<Problem>> {
    let found = train.one_ways().len();
    if found <= MOST_ONE_WAYS {
        return Ok(());
    }
    Err(vec![Problem::of(
        "elements",
        (
            "problem-too-many-one-ways",
            &[("found", &found.to_string())],
        ),
        (
            "fix-fewer-one-ways",
            &[("most", &MOST_ONE_WAYS.to_string())],
        ),
    )])
}

/// Which tasks have an answer in this train. All ratios are looked for in one go through its combinations.
fn answered(train: &Train, tasks: &[Task]) -> Vec<bool> {
    let ratios = tasks.iter().filter_map(|task| match task {
        Task::Reach { ratio } => Some(ratio),
        _ => None,
    });
    let mut missing: Vec<&Fraction> = ratios.collect();
    reach::strike_out(train, &mut missing);
    // Some fault shows or none does, whatever the seed.
    let is_of_fault = |task: &&Task| task.kind() == Kind::Failed;
    let shows = tasks
        .iter()
        .find(is_of_fault)
        .map(|task| task.solve(train).is_some());
    let answered = tasks.iter().map(|task| match task {
        Task::Reach { ratio } => !missing.contains(&ratio),
        Task::Failed { .. } => shows == Some(true),
        other => other.solve(train).is_some(),
    });
    answered.collect()
}

fn no_answer(place: &str) -> Problem {
    Problem::of(place, ("problem-no-answer", &[]), ("fix-no-answer", &[]))
}

fn outermost(train: &Train, value: Value, problems: &mut Vec<Problem>) -> Option<Sheet> {
    let names = ["format", "title", "tasks"];
    let mut fields = Fields::of(value, "", &names, &["scenario", "walk"], problems)?;
    let format: Value = fields.take("format")?;
    let (title, scenario) = (fields.take("title"), fields.take_spare("scenario"));
    let walk = fields.take_spare::<Vec<String>>("walk");
    let tasks: Vec<Value> = fields.take("tasks")?;
    if !is_format(&format, FORMAT, problems) {
        return None;
    }
    if tasks.len() > MOST_TASKS {
        problems.push(Problem::of(
            "tasks",
            (
                "problem-too-many-entries",
                &[("found", &tasks.len().to_string())],
            ),
            ("fix-keep-at-most", &[("most", &MOST_TASKS.to_string())]),
        ));
        return None;
    }
    let walk = ranges_at(train, "walk", &walk?.unwrap_or_default(), problems);
    let place = |index: usize| format!("tasks[{index}]");
    let mut places = Vec::new();
    let mut read_tasks = Vec::new();
    for (index, value) in tasks.into_iter().enumerate() {
        if let Some(task) = read(train, value, &place(index), problems) {
            places.push(index);
            read_tasks.push(task);
        }
    }
    let pairs = places.into_iter().zip(answered(train, &read_tasks));
    let unanswered = pairs.filter(|(_, answered)| !answered);
    problems.extend(unanswered.map(|(index, _)| no_answer(&place(index))));
    Some(Sheet {
        title: title?,
        scenario: scenario?,
        walk: walk?,
        tasks: read_tasks,
    })
}

//! A sheet of exercises: tasks about one train, as a file.

use super::read::{ranges_at, read};
use super::task::Task;
use crate::base::problem::{MOST_PROBLEMS, Problem};
use crate::json::{Fields, Value, strict};
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
        let task = Self::parse(train, text)?;
        let mut problems = Vec::new();
        note_unanswerable(train, &task, "", &mut problems);
        problems.is_empty().then_some(task).ok_or(problems)
    }
}

/// Notes where a task has no answer in this train.
fn note_unanswerable(train: &Train, task: &Task, place: &str, problems: &mut Vec<Problem>) {
    if task.solve(train).is_none() {
        problems.push(Problem::of(
            place,
            ("problem-no-answer", &[]),
            ("fix-no-answer", &[]),
        ));
    }
}

fn outermost(train: &Train, value: Value, problems: &mut Vec<Problem>) -> Option<Sheet> {
    let names = ["format", "title", "tasks"];
    let mut fields = Fields::of(value, "", &names, &["scenario", "walk"], problems)?;
    let format: Value = fields.take("format")?;
    let (title, scenario) = (fields.take("title"), fields.take_spare("scenario"));
    let walk: Option<Option<Vec<String>>> = fields.take_spare("walk");
    let tasks: Vec<Value> = fields.take("tasks")?;
    if format != Value::Whole(FORMAT) {
        problems.push(Problem::of(
            "format",
            ("problem-format", &[("found", &format.quoted())]),
            ("fix-format", &[("format", &FORMAT.to_string())]),
        ));
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
    let mut read_tasks = Vec::new();
    for (index, value) in tasks.into_iter().enumerate() {
        let place = format!("tasks[{index}]");
        let Some(task) = read(train, value, &place, problems) else {
            continue;
        };
        note_unanswerable(train, &task, &place, problems);
        read_tasks.push(task);
    }
    Some(Sheet {
        title: title?,
        scenario: scenario?,
        walk: walk?,
        tasks: read_tasks,
    })
}

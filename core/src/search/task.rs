//! A task file: a train, and what is asked of it.

use super::Ask;
use crate::base::problem::{MOST_PROBLEMS, Problem};
use crate::json::{Fields, Value, is_format, strict};
use crate::model::scenario::Scenario;
use crate::train::Train;

/// The format number of task files.
const FORMAT: u64 = 1;

/// A train, and what is asked of it.
pub struct SearchTask {
    /// The train; its ranges are those that ratios are wanted for.
    pub train: Train,
    /// What is asked.
    pub ask: Ask,
}

impl SearchTask {
    /// Reads the text of a task file: `{"format": 1, "train": …, "ask": …}`, with a train as in a scenario file, and
    /// what is asked as [`Ask`] has it.
    ///
    /// # Errors
    /// Every problem found: text that is not JSON, another format, fields that are missing or unknown, and those
    /// of the train and of what is asked. What is asked of the train is checked by [`super::Search::new`].
    pub fn parse(text: &str) -> Result<Self, Vec<Problem>> {
        let text = text.strip_prefix('\u{feff}').unwrap_or(text);
        let value = strict(text).map_err(|problem| vec![problem])?;
        let mut problems = Vec::new();
        let read = Self::read(value, &mut problems);
        problems.truncate(MOST_PROBLEMS);
        let (scenario, ask) = read.filter(|_| problems.is_empty()).ok_or(problems)?;
        let train = Train::new(scenario)?;
        Ok(Self { train, ask })
    }

    fn read(value: Value, problems: &mut Vec<Problem>) -> Option<(Scenario, Ask)> {
        let mut fields = Fields::of(value, "", &["format", "train", "ask"], &[], problems)?;
        let format: Option<Value> = fields.take("format");
        let train: Option<Value> = fields.take("train");
        let ask: Option<Ask> = fields.take("ask");
        if !is_format(&format?, FORMAT, problems) {
            return None;
        }
        let scenario = Scenario::of_value(train?, problems);
        Some((scenario?, ask?))
    }
}

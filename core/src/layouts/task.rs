//! A task file: what is asked of a search for layouts.

use super::LayoutAsk;
use crate::base::problem::{MOST_PROBLEMS, Problem};
use crate::json::{Fields, Value, is_format, strict};

/// The format number of task files.
const FORMAT: u64 = 1;

impl LayoutAsk {
    /// Reads the text of a task file: `{"format": 1, "layouts": …}`, where what is asked stands as [`LayoutAsk::parse`] takes
    /// it.
    ///
    /// # Errors
    /// Every problem found: text that is not JSON, another format, fields that are missing, unknown or of the wrong kind.
    /// What is asked is checked by [`super::LayoutSearch::new`].
    pub fn parse_task(text: &str) -> Result<Self, Vec<Problem>> {
        let text = text.strip_prefix('\u{feff}').unwrap_or(text);
        let value = strict(text).map_err(|problem| vec![problem])?;
        let mut problems = Vec::new();
        let read = task(value, &mut problems);
        problems.truncate(MOST_PROBLEMS);
        read.filter(|_| problems.is_empty()).ok_or(problems)
    }
}

fn task(value: Value, problems: &mut Vec<Problem>) -> Option<LayoutAsk> {
    let mut fields = Fields::of(value, "", &["format", "layouts"], &[], problems)?;
    let format: Option<Value> = fields.take("format");
    let ask: Option<LayoutAsk> = fields.take("layouts");
    is_format(&format?, FORMAT, problems).then_some(ask?)
}

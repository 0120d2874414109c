//! Why a combination does not drive, and what would.

use super::Speaker;
use crate::words::facts::{Missing, Neutral, Unconnected};
use crate::words::names::{Case, begun, one_of, parted};

/// Most elements that are named where any one of them would do.
const MOST_NAMED: usize = 4;

impl Speaker<'_> {
    pub(crate) fn neutral(&self, neutral: &Neutral) -> String {
        if self.train.scenario().is_branched() {
            return self.plain("branched");
        }
        let mut reasons = Vec::new();
        if let Some(input) = neutral.input {
            let key = if input.alone {
                "input-alone"
            } else {
                "input-geared"
            };
            reasons.push(self.unconnected(key, input));
        }
        if let Some(output) = neutral.output {
            reasons.push(self.unconnected("output-alone", output));
        }
        if neutral.reaction {
            reasons.push(self.plain("no-reaction"));
        }
        let why = self.say("neutral", 0, &[("reasons", &parted(&reasons))]);
        self.and_also(why, &begun(self.missing(neutral.missing)))
    }

    fn unconnected(&self, key: &str, end: Unconnected) -> String {
        if end.open.is_empty() {
            return self.plain(key);
        }
        let open = self.elements(end.open, Case::Subject);
        let values = [("what", self.words.plain(key)), ("open", &open)];
        self.say("for-open", end.open.len(), &values)
    }

    fn missing(&self, missing: Missing) -> String {
        let key = match missing {
            Missing::OneOf(elements) if elements.len() <= MOST_NAMED => {
                let names = one_of(&self.names(elements, Case::Subject));
                return self.say("would-drive", 0, &[("elements", &names)]);
            }
            Missing::Several(count) => return self.say("several-would-drive", count, &[]),
            Missing::OneOf(_) => "one-would-drive",
            Missing::Nothing if self.train.scenario().elements.is_empty() => "no-element",
            Missing::Nothing => "none-would-drive",
            Missing::Unknown => return String::new(),
        };
        self.plain(key)
    }
}
